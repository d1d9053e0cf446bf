import { modes } from '../../core/domain/mode';
import type { Segment } from '../../core/domain/segment';

/** What the rows are sorted by, and which way. */
export interface SegmentOrder {
  readonly by: 'along' | 'length' | 'steepest' | 'mode' | 'time';
  readonly isDown: boolean;
}

const valueOf: Readonly<Record<SegmentOrder['by'], (segment: Segment) => number | null>> = {
  along: ({ fromM }) => fromM,
  length: ({ lengthM }) => lengthM,
  steepest: ({ slopeMaxDeg }) => slopeMaxDeg,
  mode: ({ mode }) => modes.indexOf(mode),
  time: ({ time }) => time?.defaultS ?? null,
};

/** Sorted, with what is unknown last either way; equal ones as they lie along the line. */
export function inOrder(segments: readonly Segment[], { by, isDown }: SegmentOrder): Segment[] {
  const value = valueOf[by];
  const sign = isDown ? -1 : 1;
  return [...segments].sort((a, b) => {
    const [x, y] = [value(a), value(b)];
    if (x === null || y === null) return Number(x === null) - Number(y === null) || a.fromM - b.fromM;
    return sign * (x - y) || a.fromM - b.fromM;
  });
}

/** Another press on a heading turns the order; figures begin with the largest, which is what one looks for. */
export const turned = (order: SegmentOrder, by: SegmentOrder['by']): SegmentOrder =>
  order.by === by ? { by, isDown: !order.isDown } : { by, isDown: by !== 'along' && by !== 'mode' };
