import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../src/core/assumptions/figures';
import { designSlopeDeg, slopeSigmaDeg, usualSigmaZM } from '../../src/core/ground/slope-error';

/**
 * First-order propagation of independent vertical errors through Horn's weights (cf. Florinsky 1998): sqrt(3)/4 of
 * sigma_z / cell, times cos^2. Values recomputed in closed form, printed to two decimals: tolerance 0.005 degrees. GLO-30
 * above 20 % slope: LE90 4 m, sigma_z = 4/1.645 = 2.432 m on 30 m cells.
 */
test.each([
  { slopeDeg: 15, cellM: 30, sigmaZM: 4 / 1.645, sigmaDeg: 1.88 },
  { slopeDeg: 30, cellM: 30, sigmaZM: 4 / 1.645, sigmaDeg: 1.51 },
  { slopeDeg: 35, cellM: 30, sigmaZM: 4 / 1.645, sigmaDeg: 1.35 },
  { slopeDeg: 45, cellM: 30, sigmaZM: 4 / 1.645, sigmaDeg: 1.01 },
  { slopeDeg: 30, cellM: 1, sigmaZM: 0.15, sigmaDeg: 2.79 },
  { slopeDeg: 30, cellM: 5, sigmaZM: 0.15, sigmaDeg: 0.56 },
])(
  '$slopeDeg degrees on $cellM m cells, sigma_z $sigmaZM m: $sigmaDeg',
  ({ slopeDeg, cellM, sigmaZM, sigmaDeg }) => {
    expect(Math.abs(slopeSigmaDeg(slopeDeg, cellM, sigmaZM) - sigmaDeg)).toBeLessThan(0.0051);
  },
);

/** The same by brute force: random windows with independent errors, 3 % of the closed form. */
test('the spread of many slopes read with random errors is what the formula says', () => {
  const random = seeded(7);
  const cellM = 30;
  const rise = cellM * Math.tan((30 * Math.PI) / 180);
  const slopes: number[] = [];
  for (let k = 0; k < 20_000; k++) {
    const z = [0, 1, 2, 3, 4, 5, 6, 7, 8].map((i) => (i % 3) * rise + 2 * normal(random));
    const p = (z[2]! + 2 * z[5]! + z[8]! - z[0]! - 2 * z[3]! - z[6]!) / (8 * cellM);
    const q = (z[6]! + 2 * z[7]! + z[8]! - z[0]! - 2 * z[1]! - z[2]!) / (8 * cellM);
    slopes.push((Math.atan(Math.hypot(p, q)) * 180) / Math.PI);
  }
  const mean = slopes.reduce((a, b) => a + b) / slopes.length;
  const sd = Math.sqrt(slopes.reduce((a, b) => a + (b - mean) ** 2, 0) / slopes.length);
  expect(Math.abs(sd / slopeSigmaDeg(30, cellM, 2) - 1)).toBeLessThan(0.03);
});

const { ground } = defaultFigures;

/** Judgement, from what cells of each size hide. */
describe('the slope to decide on', () => {
  test.each([
    { slopeDeg: 30, cellM: 30, design: 35 },
    { slopeDeg: 30, cellM: 20, design: 35 },
    { slopeDeg: 30, cellM: 19.9, design: 33 },
    { slopeDeg: 30, cellM: 5, design: 33 },
    { slopeDeg: 30, cellM: 2, design: 31 },
    { slopeDeg: 17, cellM: 30, design: 19 },
    { slopeDeg: 15.5, cellM: 10, design: 16 },
    { slopeDeg: 15, cellM: 30, design: 15 },
    { slopeDeg: 8, cellM: 30, design: 8 },
  ])('of $slopeDeg degrees on $cellM m cells is $design', ({ slopeDeg, cellM, design }) => {
    expect(designSlopeDeg(slopeDeg, cellM, ground)).toBeCloseTo(design, 9);
  });
});

test('vertical error where nobody named one', () => {
  expect([30, 20, 19.9, 5, 4.9].map((cellM) => usualSigmaZM(cellM, ground))).toEqual([4, 4, 1, 1, 0.3]);
});

function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 2 ** 32;
  };
}

/** Box-Muller. */
function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random());
}
