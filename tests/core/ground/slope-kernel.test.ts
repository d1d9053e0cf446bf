import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { between } from '../../evenly-drawn';
import { groundScaleAt } from '../../../src/core/ground/ground-scale';
import { arctanDeg, hornSlopes, slopeMetric } from '../../../src/core/ground/slope-kernel';
import { hornGradient, slopeDegOf } from '../../../src/core/ground/window';
import { makeRaster } from './made-raster';

describe('slopes of whole rows', () => {
  const turned = { x0: -40, y0: 50, colX: 7, colY: -2, rowX: -1, rowY: -6 };
  const scale = groundScaleAt(
    makeRaster({ widthPx: 9, heightPx: 9, cellM: 7, affine: turned }, () => 0),
    4.5,
    4.5,
  );

  test('are those of each window alone, also in a skew grid and beside holes', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 3, max: 9 }),
        fc.integer({ min: 3, max: 9 }),
        fc.array(fc.oneof({ weight: 20, arbitrary: between(0, 60) }, fc.constant(NaN)), {
          minLength: 81,
          maxLength: 81,
        }),
        (widthPx, heightPx, cells) => {
          const z = Float64Array.from(cells.slice(0, widthPx * heightPx));
          const slopes = new Float32Array(z.length).fill(-1);
          // In two parts, as two threads would share it.
          const middle = heightPx >> 1;
          hornSlopes(z, widthPx, { fromRow: middle, toRow: heightPx }, slopeMetric(scale), slopes);
          hornSlopes(z, widthPx, { fromRow: 0, toRow: middle }, slopeMetric(scale), slopes);
          for (let row = 0; row < heightPx; row++) {
            for (let col = 0; col < widthPx; col++) {
              const got = slopes[row * widthPx + col]!;
              if (row === 0 || col === 0 || row === heightPx - 1 || col === widthPx - 1) {
                expect(got).toBeNaN();
                continue;
              }
              const window = [-1, 0, 1].flatMap((r) =>
                [-1, 0, 1].map((c) => z[(row + r) * widthPx + col + c]!),
              );
              const known = window.every((value) => !Number.isNaN(value));
              if (known) expect(got).toBeCloseTo(slopeDegOf(hornGradient(window, scale)), 4);
              else expect(got).toBeNaN();
            }
          }
        },
      ),
    );
  });
});

/** Abramowitz and Stegun 4.4.49 promises 2e-8 radians: 1.15e-6 degrees. */
test('the quick arctangent keeps its promise from flat to vertical', () => {
  let worst = 0;
  for (let k = 0; k <= 100_000; k++) {
    const exact = (k / 100_000) * 89.999;
    worst = Math.max(worst, Math.abs(arctanDeg(Math.tan((exact * Math.PI) / 180)) - exact));
  }
  expect(worst).toBeLessThan(1.2e-6);
  expect(arctanDeg(0)).toBe(0);
  expect(arctanDeg(Infinity)).toBe(90);
  expect(arctanDeg(NaN)).toBeNaN();
});
