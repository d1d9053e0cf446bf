import { expect, test } from 'vitest';
import { normalQuantile, sobolPoints, triangularQuantile } from '../../src/core/slip/sampling';

/** Published: M. Abramowitz and I. Stegun, Handbook of Mathematical Functions (1964), table 26.5 (from memory). */
test.each([
  [0.5, 0],
  [0.75, 0.67449],
  [0.9, 1.28155],
  [0.95, 1.64485],
  [0.975, 1.95996],
  [0.99, 2.32635],
  [0.999, 3.09023],
])('a share of %d of the normal distribution lies below %d', (share, z) => {
  expect(Math.abs(normalQuantile(share) - z)).toBeLessThan(0.00001);
  expect(Math.abs(normalQuantile(1 - share) + z)).toBeLessThan(0.00001);
});

/** Textbook: mean (a + b + c) / 3 and variance (a² + b² + c² − ab − ac − bc) / 18 of a triangular distribution. */
test('a triangular spread has the mean and variance of the textbook', () => {
  const spread = { low: 0.05, mode: 0.12, high: 0.25 };
  const n = 100_000;
  const values = Array.from({ length: n }, (_, i) => triangularQuantile(spread, (i + 0.5) / n));
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / n;
  const { low: a, mode: c, high: b } = spread;
  expect(mean).toBeCloseTo((a + b + c) / 3, 6);
  expect(variance).toBeCloseTo((a * a + b * b + c * c - a * b - a * c - b * c) / 18, 6);
});

/**
 * I. M. Sobol, USSR Comput. Math. Math. Phys. 7 (1967): of 2ᵏ points exactly one falls in each of 2ᵏ equal strips of every
 * dimension, and the first two dimensions share every box of area 2⁻ᵏ evenly. Scrambling (Owen 1995) keeps both.
 */
test('points fill every dimension, and pairs of them, evenly', () => {
  const points = sobolPoints(26, 256);
  for (const dimension of points) {
    expect(new Set(Array.from(dimension, (u) => Math.floor(256 * u))).size).toBe(256);
  }
  for (const columns of [1, 2, 4, 8, 16, 32, 64, 128, 256]) {
    const boxes = new Set(
      Array.from(
        points[0]!,
        (x, i) => `${Math.floor(x * columns)}/${Math.floor((points[1]![i]! * 256) / columns)}`,
      ),
    );
    expect(boxes.size).toBe(256);
  }
});

test('the same points come at every call, and no two dimensions are alike', () => {
  const points = sobolPoints(30, 64);
  expect(sobolPoints(30, 64)).toEqual(points);
  expect(new Set(points.map((dimension) => dimension.join())).size).toBe(30);
});
