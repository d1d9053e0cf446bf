import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fewerCorners } from '../../../src/core/line/fewer-corners';
import { cases } from '../../cases';

type Corner = readonly [number, number];

const offLine = ([x, y]: Corner, [ax, ay]: Corner, [bx, by]: Corner): number => {
  const [dx, dy] = [bx - ax, by - ay];
  const along = dx === 0 && dy === 0 ? 0 : ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy);
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(x - ax - t * dx, y - ay - t * dy);
};

test('the ends stay, and no corner that was left out lies further from the new line than the tolerance', () => {
  const corner = fc.tuple(fc.integer({ min: 0, max: 400 }), fc.integer({ min: 0, max: 400 }));
  fc.assert(
    fc.property(
      fc.array(corner, { minLength: 2, maxLength: 30 }),
      fc.integer({ min: 1, max: 60 }),
      (all, tolerance) => {
        const kept = fewerCorners(all, tolerance);
        expect([kept[0], kept.at(-1)]).toEqual([all[0], all.at(-1)]);
        for (const each of all) {
          const offs = kept.slice(1).map((end, i) => offLine(each, kept[i]!, end));
          expect(Math.min(...offs)).toBeLessThanOrEqual(tolerance + 1e-9);
        }
      },
    ),
    { numRuns: cases(200) },
  );
});

test('nothing and one place stay as they are', () => {
  expect(fewerCorners([], 1)).toEqual([]);
  expect(fewerCorners([[3, 4]], 1)).toEqual([[3, 4]]);
});
