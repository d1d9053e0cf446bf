import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { linearScale, roundTicks, timeTicks } from '../../../src/core/sheet/axis';
import { areaPath, drawnRuns, valueAt } from '../../../src/core/sheet/drawn-line';

const course = (alongM: number[], value: number[]) => ({
  alongM: Float64Array.from(alongM),
  value: Float64Array.from(value),
});
const same = linearScale([0, 1], [0, 1]);

test('the pen is lifted where the value is unknown', () => {
  const runs = drawnRuns(course([0, 10, 20, 30, 40], [1, 2, NaN, 4, 5]), [0, 40], same, same);
  expect(runs.map((run) => run.map(([x]) => x))).toEqual([
    [0, 10],
    [30, 40],
  ]);
});

test('a stretch begins and ends exactly at its borders', () => {
  const [run] = drawnRuns(course([0, 10, 20], [0, 10, 20]), [4, 16], same, same);
  expect(run?.[0]).toEqual([4, 4]);
  expect(run?.at(-1)).toEqual([16, 16]);
});

test('beside an unknown value nothing is made up', () => {
  expect(valueAt(course([0, 10, 20], [0, NaN, 20]), 5)).toBeNaN();
  expect(valueAt(course([0, 10], [0, 10]), 11)).toBeNaN();
  expect(valueAt(course([0, 10], [0, 10]), 10)).toBe(10);
});

describe('twenty thousand stations on a few hundred pixels', () => {
  test('no peak and no hollow is lost, and few points are drawn', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1_000_000 }),
        fc.integer({ min: 100, max: 900 }),
        (seed, widthPx) => {
          const count = 20_000;
          const value = Array.from(
            { length: count },
            (_, i) => Math.sin(i * 0.37 + seed) * 50 + Math.sin(i / 700) * 900,
          );
          const x = linearScale([0, count - 1], [0, widthPx]);
          const runs = drawnRuns(
            course(
              value.map((_, i) => i),
              value,
            ),
            [0, count - 1],
            x,
            same,
          );
          const ys = runs.flat().map(([, y]) => y);
          expect(ys.length).toBeLessThanOrEqual(4 * (widthPx + 2));
          expect(Math.max(...ys)).toBe(Math.max(...value));
          expect(Math.min(...ys)).toBe(Math.min(...value));
        },
      ),
      { numRuns: 20 },
    );
  });
});

test('an area closes on its base', () => {
  expect(
    areaPath(
      [
        [
          [0, 3],
          [10, 5],
        ],
      ],
      20,
    ),
  ).toBe('M0 20L0 3L10 5L10 20Z');
});

test('ticks are round and within', () => {
  expect(roundTicks(0, 1900, 5)).toEqual([0, 500, 1000, 1500]);
  expect(roundTicks(3, 3, 5)).toEqual([]);
  expect(timeTicks(0, 7200, 4)).toEqual([0, 1800, 3600, 5400, 7200]);
});
