import type { LngLat } from '../domain/coordinates';
import type { Station } from '../domain/station';
import type { TrackPoint } from '../domain/track';
import { wrapLngDeg } from '../line/geodesic';

/** Where a recorded track was on the line, by time. */
export interface MatchedTrack {
  readonly lengthM: number;
  readonly timeMs: readonly number[];
  /** Distance along the line, never falling: the furthest place reached so far. */
  readonly reachedM: readonly number[];
  readonly matchedPct: number;
}

/** A point further off than this is not on the line (judgement: receivers in steep ground). */
const offLineM = 50;
/** A point is looked for this far behind and ahead of the furthest place reached; the whole rest of the line if it isn't there. */
const [behindM, aheadM] = [60, 300];
/** Receivers wander this much while the team stands still. */
const standingM = 10;

/**
 * Follows a recorded track along the line in order of time, so that a line that meets itself is walked once. Points without a
 * time, or off the line, are left out.
 */
export function matchTrack(track: readonly TrackPoint[], stations: readonly Station[]): MatchedTrack {
  const lengthM = stations.at(-1)?.alongM ?? 0;
  const timed = track.flatMap(({ position, timeMs }) => (timeMs === null ? [] : [{ position, timeMs }]));
  timed.sort((a, b) => a.timeMs - b.timeMs);
  const [timeMs, reachedM]: [number[], number[]] = [[], []];
  let [furthestM, lost] = [0, true];
  for (const point of timed) {
    const near = lost ? null : nearest(point.position, stations, furthestM - behindM, furthestM + aheadM);
    const place = near ?? nearest(point.position, stations, furthestM - behindM, lengthM);
    lost = place === null;
    if (place === null) continue;
    furthestM = Math.max(furthestM, place);
    timeMs.push(point.timeMs);
    reachedM.push(furthestM);
  }
  const matchedPct = timed.length === 0 ? 0 : (100 * timeMs.length) / timed.length;
  return { lengthM, timeMs, reachedM, matchedPct };
}

/**
 * When the track passed a distance. At the line's beginning a team may stand before it goes: then the last moment there counts
 * as leaving. null where the track was not there.
 */
export function passingTimeMs(
  matched: MatchedTrack,
  alongM: number,
  side: 'leaving' | 'arriving',
): number | null {
  const { timeMs, reachedM, lengthM } = matched;
  const firstM = reachedM[0];
  if (firstM === undefined || firstM > alongM + standingM) return null;
  const isStart = side === 'leaving' && alongM <= Math.max(firstM, standingM);
  const sought = isStart ? alongM + standingM : Math.min(alongM, lengthM - standingM);
  const after = reachedM.findIndex((m) => (isStart ? m > sought : m >= sought));
  if (after < 0) return null;
  if (isStart) return timeMs[Math.max(0, after - 1)]!;
  if (after === 0) return timeMs[0]!;
  const [m0, m1] = [reachedM[after - 1]!, reachedM[after]!];
  const [t0, t1] = [timeMs[after - 1]!, timeMs[after]!];
  return t0 + ((sought - m0) / (m1 - m0)) * (t1 - t0);
}

/** Distance of the nearest place between two distances, first of equally near; null if it is too far off. */
function nearest(point: LngLat, stations: readonly Station[], fromM: number, toM: number): number | null {
  const eastPerDeg = 111_320 * Math.cos((point[1] * Math.PI) / 180);
  const northPerDeg = 111_132;
  let [bestM, bestOff] = [NaN, Infinity];
  let start = firstFrom(stations, fromM);
  for (; start + 1 < stations.length && stations[start]!.alongM <= toM; start++) {
    const [a, b] = [stations[start]!, stations[start + 1]!];
    const ax = wrapLngDeg(a.position[0] - point[0]) * eastPerDeg;
    const ay = (a.position[1] - point[1]) * northPerDeg;
    const dx = wrapLngDeg(b.position[0] - a.position[0]) * eastPerDeg;
    const dy = (b.position[1] - a.position[1]) * northPerDeg;
    const squared = dx * dx + dy * dy;
    const part = squared === 0 ? 0 : Math.min(1, Math.max(0, -(ax * dx + ay * dy) / squared));
    const off = Math.hypot(ax + part * dx, ay + part * dy);
    if (off < bestOff - 0.01) [bestM, bestOff] = [a.alongM + part * (b.alongM - a.alongM), off];
  }
  return bestOff <= offLineM ? bestM : null;
}

function firstFrom(stations: readonly Station[], fromM: number): number {
  let [low, high] = [0, Math.max(0, stations.length - 2)];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (stations[middle]!.alongM <= fromM) low = middle;
    else high = middle - 1;
  }
  return low;
}
