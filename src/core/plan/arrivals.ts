import type { Segment } from '../domain/segment';
import type { SnowChange } from '../domain/project';
import type { ChangedSnow } from './conditions';
import type { DayClock } from './day-clock';

/** Seconds from the start of the line to its places, as far as times can be told. */
export interface Arrivals {
  /** At a distance along the line; null beyond a segment whose time cannot be told. */
  atS(alongM: number): number | null;
  /** At the end of the line. */
  readonly endS: number | null;
}

/** When the team comes where, evenly within each segment. */
export function arrivalsOf(segments: readonly Pick<Segment, 'fromM' | 'toM' | 'time'>[]): Arrivals {
  const startsS: (number | null)[] = [];
  let nowS: number | null = 0;
  for (const { time } of segments) {
    startsS.push(nowS);
    nowS = nowS === null || time === null ? null : nowS + time.defaultS;
  }
  return {
    endS: nowS,
    atS(alongM) {
      const index = indexOfSegment(segments, alongM);
      const [segment, startS] = [segments[index], startsS[index]];
      if (segment === undefined || startS == null) return null;
      const part = (alongM - segment.fromM) / Math.max(segment.toM - segment.fromM, 1e-9);
      if (part <= 0) return startS;
      return segment.time === null ? null : startS + Math.min(1, part) * segment.time.defaultS;
    },
  };
}

/** The last segment that begins at or before a distance. */
function indexOfSegment(segments: readonly { readonly fromM: number }[], alongM: number): number {
  let [low, high] = [0, segments.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (segments[middle]!.fromM <= alongM) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Segments with their clock times, the first at `startS`; null beyond what can be told. */
export function withClock(segments: readonly Segment[], clock: DayClock, startS: number): Segment[] {
  const iso = (seconds: number | null) => (seconds === null ? null : clock.isoAt(startS + seconds));
  let nowS: number | null = 0;
  return segments.map((segment) => {
    const arriveS = nowS;
    nowS = arriveS === null || segment.time === null ? null : arriveS + segment.time.defaultS;
    return { ...segment, arrive: iso(arriveS), leave: iso(nowS) };
  });
}

/**
 * For each distance, the snow that has come by the time the team is there; null where it has not changed, or where nobody
 * can say when that is. Of several changes the latest that has come counts.
 */
export function changedSnowAt(
  alongM: readonly number[],
  changes: readonly SnowChange[],
  arrivals: Arrivals,
  clock: DayClock,
  startS: number,
): (ChangedSnow | null)[] {
  const timed = changes
    .map((change) => ({ change, fromS: clock.secondsUntil(change.at) ?? Infinity }))
    .sort((a, b) => a.fromS - b.fromS);
  return alongM.map((hereM) => {
    const hereS = arrivals.atS(hereM);
    let snow: ChangedSnow | null = null;
    for (const { change, fromS } of timed) {
      const inside = hereM >= change.fromM && (hereM < change.toM || hereM === alongM.at(-1));
      if (inside && hereS !== null && startS + hereS >= fromS) snow = change;
    }
    return snow;
  });
}
