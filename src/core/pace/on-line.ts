import type { LngLat } from '../domain/coordinates';
import { wrapLngDeg } from '../line/geodesic';
import type { Station } from '../domain/station';
import type { PaceEvent } from './pace-event';

/** Distance along the line against distance along the slope, for a whole line. */
export interface SlopeLength {
  /** Both ascending, one for each station. */
  readonly alongM: Float64Array;
  readonly slopeM: Float64Array;
}

const known = new WeakMap<readonly Station[], SlopeLength>();

/**
 * Rope lies on the slope: pieces, intervals and pitches are counted along it, the line's own distances are horizontal.
 * Where an elevation is unknown the horizontal distance is taken.
 */
export function slopeLength(stations: readonly Station[]): SlopeLength {
  const found = known.get(stations);
  if (found !== undefined) return found;
  const alongM = new Float64Array(stations.length);
  const slopeM = new Float64Array(stations.length);
  for (let i = 0; i < stations.length; i++) {
    const [here, before] = [stations[i]!, stations[i - 1]];
    alongM[i] = here.alongM;
    if (before === undefined) continue;
    const flatM = here.alongM - before.alongM;
    const riseM =
      here.elevationM === null || before.elevationM === null ? 0 : here.elevationM - before.elevationM;
    slopeM[i] = slopeM[i - 1]! + Math.hypot(flatM, riseM);
  }
  const result = { alongM, slopeM };
  known.set(stations, result);
  return result;
}

/** Index of the last value not above `x`, at least 0. */
export function indexAt(ascending: Float64Array, x: number): number {
  let [low, high] = [0, ascending.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (ascending[middle]! <= x) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Straight between neighbours, held at the ends. */
export function between(from: Float64Array, to: Float64Array, x: number): number {
  const i = Math.min(indexAt(from, x), Math.max(0, from.length - 2));
  const spanM = (from[i + 1] ?? NaN) - from[i]!;
  if (!(spanM > 0)) return to[i] ?? NaN;
  const part = Math.min(1, Math.max(0, (x - from[i]!) / spanM));
  return to[i]! + part * (to[i + 1]! - to[i]!);
}

/** A place on the line: so far from one station to the next. */
export interface Spot {
  readonly here: Station;
  readonly next: Station;
  /** 0 at `here` to 1 at `next`. */
  readonly part: number;
}

/** The place at a distance along the slope. Distances outside the line give its ends. Throws on a line without stations. */
export function spotAtSlope(stations: readonly Station[], slopeM: number): Spot {
  const { slopeM: all } = slopeLength(stations);
  const i = indexAt(all, slopeM);
  const here = stations[i];
  if (here === undefined) throw new RangeError('a line without stations has no place');
  const next = stations[i + 1] ?? here;
  const gapM = (all[i + 1] ?? NaN) - all[i]!;
  const part = gapM > 0 ? Math.min(1, Math.max(0, (slopeM - all[i]!) / gapM)) : 0;
  return { here, next, part };
}

export const alongOf = ({ here, next, part }: Spot): number =>
  here.alongM + part * (next.alongM - here.alongM);

/** Straight between stations, which are metres apart. */
export function positionOf({ here, next, part }: Spot): LngLat {
  if (part === 0) return here.position;
  const eastDeg = wrapLngDeg(next.position[0] - here.position[0]);
  const northDeg = next.position[1] - here.position[1];
  return [wrapLngDeg(here.position[0] + part * eastDeg), here.position[1] + part * northDeg];
}

/** A stretch's log, counted along the slope from its start, with its places as distances along the line. */
export function eventsOnLine(
  events: readonly PaceEvent[],
  stations: readonly Station[],
  startAlongM: number,
): PaceEvent[] {
  const { alongM, slopeM } = slopeLength(stations);
  const startM = between(alongM, slopeM, startAlongM);
  const onLine = (m: number) => between(slopeM, alongM, startM + m);
  return events.map((event) => ({
    ...event,
    fromM: onLine(event.fromM),
    toM: onLine(event.toM),
    ...(event.pieceM === undefined ? {} : { pieceM: onLine(event.pieceM) }),
  }));
}
