import type { LngLat } from '../domain/coordinates';
import type { LinePoint, Line } from '../domain/project';

/** What a track's own heights look like beside the ground's. Height references differ by up to 100 m anywhere on Earth. */
export type HeightLook =
  | { readonly kind: 'same' }
  | { readonly kind: 'unknown' }
  /** The numbers are feet. */
  | { readonly kind: 'feet' }
  /** Apart by nearly the same everywhere: another height reference. */
  | { readonly kind: 'offset'; readonly offsetM: number };

const metresPerFoot = 0.3048;
const fewest = 10;
/** Below this, what is apart is the receiver's and the raster's error (judgement). */
const notableOffsetM = 20;
/** Half of the points lie this near to the typical difference, or it is no offset (judgement). */
const steadyM = 25;

/** Compares heights at the same places, metres; those not known are passed over. */
export function lookOfHeights(
  pairs: readonly { readonly fileM: number | null; readonly groundM: number | null }[],
): HeightLook {
  const known = pairs.flatMap(({ fileM, groundM }) =>
    fileM === null || groundM === null || Number.isNaN(groundM) ? [] : [{ fileM, groundM }],
  );
  if (known.length < fewest) return { kind: 'unknown' };
  const asMetres = differences(known.map(({ fileM, groundM }) => fileM - groundM));
  const asFeet = differences(known.map(({ fileM, groundM }) => fileM * metresPerFoot - groundM));
  // Feet read as metres are off by more than twice the ground's height; taken as feet they fit.
  if (
    asFeet.typicalM + asFeet.spreadM < 0.2 * (asMetres.typicalM + asMetres.spreadM) &&
    asMetres.typicalM > 200
  )
    return { kind: 'feet' };
  if (asMetres.typicalM > notableOffsetM && asMetres.spreadM < steadyM)
    return { kind: 'offset', offsetM: asMetres.medianM };
  return { kind: 'same' };
}

function differences(valuesM: readonly number[]): { medianM: number; typicalM: number; spreadM: number } {
  const medianM = median(valuesM);
  return { medianM, typicalM: Math.abs(medianM), spreadM: median(valuesM.map((m) => Math.abs(m - medianM))) };
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  const high = sorted[middle]!;
  return sorted.length % 2 === 1 ? high : (high + sorted[middle - 1]!) / 2;
}

/** The same line with heights that were feet as metres. */
export function heightsFromFeet(points: readonly LinePoint[]): LinePoint[] {
  return points.map((point) => ({
    ...point,
    elevationM: point.elevationM === null ? null : point.elevationM * metresPerFoot,
  }));
}

/** Longitude and latitude exchanged; null where that is no position. */
function swapped([lngDeg, latDeg]: LngLat): LngLat | null {
  return Math.abs(lngDeg) <= 90 ? [latDeg, lngDeg] : null;
}

/** True where no point lies on known ground, but all would if longitude and latitude changed places. */
export function looksSwapped(
  positions: readonly LngLat[],
  isOnGround: (position: LngLat) => boolean,
): boolean {
  if (positions.length === 0 || positions.some(isOnGround)) return false;
  return positions.every((position) => {
    const other = swapped(position);
    return other !== null && isOnGround(other);
  });
}

/** The line with longitude and latitude exchanged, once the user has said so. */
export function swapLngLat(points: readonly LinePoint[]): LinePoint[] {
  return points.map((point) => ({ ...point, position: swapped(point.position) ?? point.position }));
}

/** The very same places in the same order: a file opened a second time. */
export function isSameLine(a: Pick<Line, 'points'>, b: Pick<Line, 'points'>): boolean {
  return (
    a.points.length === b.points.length &&
    a.points.every(({ position }, i) => {
      const other = b.points[i]!.position;
      return other[0] === position[0] && other[1] === position[1];
    })
  );
}
