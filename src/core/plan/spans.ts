import type { Decided } from './decide';
import { evenPieces } from './partition';

/** A segment before anything is said about it: stations `first` to `end` - 1. */
export interface Span {
  readonly first: number;
  readonly end: number;
  readonly fromM: number;
  readonly toM: number;
}

/** No shorter segment for the slope's sake. */
export const shortestSegmentM = 20;

/**
 * What another segment must save, in degrees squared times metres (judgement): two halves of 60 m that differ by 10 degrees
 * are told apart, and so are two of 240 m that differ by 5.
 */
export const segmentPenalty = 3000;

/** Cuts the decided line into segments of one mode, one snow, one direction and one character. They tile the line. */
export function segmentSpans(decided: Decided): Span[] {
  return blocks(decided).flatMap((block) => byCharacter(decided, block));
}

/** Longest runs of one state, snow, crossing and direction: what is gone in one go, whatever the slope does. */
export function stretchSpans(decided: Decided): Span[] {
  return runs(decided, (i) => beginsStretch(decided, i));
}

function blocks(decided: Decided): Span[] {
  return runs(decided, (i) => {
    const [before, here] = [decided.conditions[i - 1], decided.conditions[i]];
    return (
      beginsStretch(decided, i) || decided.line.isBorder[i] === 1 || before?.snowChanged !== here?.snowChanged
    );
  });
}

function beginsStretch({ states, conditions }: Decided, i: number): boolean {
  const [before, here] = [conditions[i - 1], conditions[i]];
  return (
    states[i] !== states[i - 1] ||
    before?.goingDown !== here?.goingDown ||
    before?.snow.hardness !== here?.snow.hardness ||
    before?.snow.wetness !== here?.snow.wetness ||
    (states[i] === 'crossing' && before?.crossing !== here?.crossing)
  );
}

function runs(decided: Decided, beginsAt: (i: number) => boolean): Span[] {
  const count = decided.conditions.length;
  const spans: Span[] = [];
  let first = 0;
  for (let i = 1; i <= count; i++) {
    if (i < count && !beginsAt(i)) continue;
    spans.push(spanOf(decided, first, i));
    first = i;
  }
  return spans;
}

const spanOf = ({ edgesM }: Decided, first: number, end: number): Span => ({
  first,
  end,
  fromM: edgesM[first]!,
  toM: edgesM[end]!,
});

function byCharacter(decided: Decided, block: Span): Span[] {
  const slopes = decided.conditions
    .slice(block.first, block.end)
    .map((condition) => condition.designSlopeDeg);
  if (block.toM - block.fromM < 2 * shortestSegmentM || slopes.includes(null)) return [block];
  const known = Float64Array.from(slopes, (slopeDeg) => slopeDeg!);
  const edgesM = decided.edgesM.subarray(block.first, block.end + 1);
  const cuts = evenPieces(known, edgesM, { penalty: segmentPenalty, shortestM: shortestSegmentM });
  const ends = [0, ...cuts, known.length];
  return cuts.length === 0
    ? [block]
    : ends.slice(1).map((end, k) => spanOf(decided, block.first + ends[k]!, block.first + end));
}
