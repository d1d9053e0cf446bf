import type { Segment } from '../domain/segment';

/** Time used up along the line: knots at segment borders, straight between. */
export interface PaceKnot {
  readonly alongM: number;
  readonly seconds: number;
}

/** Knots up to the first segment without a time. One knot only: nothing could be computed. */
export function paceKnots(segments: readonly Segment[]): PaceKnot[] {
  const knots: PaceKnot[] = [{ alongM: segments[0]?.fromM ?? 0, seconds: 0 }];
  let seconds = 0;
  for (const segment of segments) {
    if (segment.time === null) break;
    seconds += segment.time.defaultS;
    knots.push({ alongM: segment.toM, seconds });
  }
  return knots;
}

type Field = 'alongM' | 'seconds';

function between(knots: readonly PaceKnot[], from: Field, to: Field, value: number): number | null {
  const after = knots.findIndex((knot) => knot[from] >= value);
  const next = knots[after];
  if (!next) return null;
  const before = knots[after - 1] ?? next;
  const span = next[from] - before[from];
  return span === 0 ? next[to] : before[to] + ((value - before[from]) / span) * (next[to] - before[to]);
}

/** Seconds from the start; null beyond what is computed. */
export const secondsAt = (knots: readonly PaceKnot[], alongM: number): number | null =>
  between(knots, 'alongM', 'seconds', alongM);

/** Metres along the line at a time; null beyond what is computed. */
export const alongAt = (knots: readonly PaceKnot[], seconds: number): number | null =>
  between(knots, 'seconds', 'alongM', seconds);
