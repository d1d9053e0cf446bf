import * as library from 'mgrs';
import type { LngLat } from '../domain/coordinates';
import { wrapLngDeg } from './geodesic';
import { fromUtm, isNorthBand, toUtm, zoneOf, type UtmPlace } from './utm';

// In Node the package is CommonJS, in bundles a module of named exports: the functions are behind `default` or not.
const mgrs = 'default' in library ? (library.default as typeof library) : library;

/** Figures each for easting and northing: 5 is one metre. */
export type MgrsFigures = 1 | 2 | 3 | 4 | 5;

/**
 * The grid square that holds a position, e.g. `32TLR 34200 77664`; null beyond 80 south and 84 north. Figures are cut off,
 * never rounded (FGDC-STD-011-2001, 3.2.3).
 */
export function toMgrs(position: LngLat, figures: MgrsFigures = 5): string | null {
  const place = toUtm(position);
  if (place === null) return null;
  const whole = squareOf(position, place);
  const cut = (metres: number) =>
    String(Math.floor(metres) % 100_000)
      .padStart(5, '0')
      .slice(0, figures);
  return `${whole} ${cut(place.eastingM)} ${cut(place.northingM)}`;
}

/**
 * Zone, band and square. The package is asked for the middle of the square metre, so that its own rounding cannot tip a
 * position on a grid line into the neighbour.
 */
function squareOf(position: LngLat, place: UtmPlace): string {
  const middle = fromUtm({
    zone: place.zone,
    isNorth: isNorthBand(place.band),
    eastingM: Math.floor(place.eastingM) + 0.5,
    northingM: Math.floor(place.northingM) + 0.5,
  });
  const isSameZone = zoneOf(middle) === place.zone && toUtm(middle)?.band === place.band;
  const [lngDeg, latDeg] = isSameZone ? middle : position;
  const text = mgrs.forward([wrapLngDeg(lngDeg), latDeg], 5);
  const square = /^(\d{1,2}[C-HJ-NP-X][A-HJ-NP-Z]{2})\d{10}$/.exec(text)?.[1];
  if (square === undefined) throw new Error(`the MGRS package answered "${text}"`);
  return square;
}

/** The middle of the square that a reference names; null where the text is none. */
export function fromMgrs(text: string): LngLat | null {
  const bare = text.replaceAll(/\s+/g, '').toUpperCase();
  const match = /^(\d{1,2})([C-HJ-NP-X])([A-HJ-NP-Z][A-HJ-NP-V])(\d*)$/.exec(bare);
  const digits = match?.[4];
  if (digits === undefined || digits.length % 2 !== 0 || digits.length > 10) return null;
  try {
    const [lngDeg, latDeg] = mgrs.toPoint(bare);
    const found = toUtm([lngDeg, latDeg]);
    // A square that the zone does not have comes back from somewhere else.
    const isThere = found !== null && sameSquare(toMgrs([lngDeg, latDeg]), bare, digits.length / 2);
    return isThere && Number.isFinite(lngDeg) ? [lngDeg, latDeg] : null;
  } catch {
    return null;
  }
}

function sameSquare(found: string | null, asked: string, figures: number): boolean {
  const [square, easting = '', northing = ''] = (found ?? '').split(' ');
  return `${square}${easting.slice(0, figures)}${northing.slice(0, figures)}` === asked.replace(/^0/, '');
}
