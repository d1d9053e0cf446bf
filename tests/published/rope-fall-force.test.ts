import { expect, test } from 'vitest';
import { gravityMS2 } from '../../src/core/domain/gravity';
import { counterweightTensionN, fixedEndTensionN } from '../../src/core/slip/rope-forces';
import { fallForceN } from './fall-force';

/**
 * Published: A. Wexler, "The Theory of Belaying", American Alpine Journal 1950: F = W + √(W² + 2 W M f), a linear rope with a
 * fixed end. The rows are the equation worked by hand for g = 9.80665 m/s² and M = 24 080.9 N (half rope 15 464.7 N).
 * On a slope W = m g (sin θ − μ cos θ). Tolerance: the rows' last printed digit.
 */
const rows = [
  { massKg: 80, factor: 0, modulusN: 24080.9, forceN: 1569.06, within: 0.01 },
  { massKg: 80, factor: 0.1, modulusN: 24080.9, forceN: 2880.7, within: 0.05 },
  { massKg: 80, factor: 0.3, modulusN: 24080.9, forceN: 4241.5, within: 0.05 },
  { massKg: 80, factor: 0.5, modulusN: 24080.9, forceN: 5201.3, within: 0.05 },
  { massKg: 80, factor: 1, modulusN: 24080.9, forceN: 6981.3, within: 0.05 },
  { massKg: 80, factor: 1.77, modulusN: 24080.9, forceN: 9000, within: 0.05 },
  { massKg: 100, factor: 0.3, modulusN: 24080.9, forceN: 4870.5, within: 0.05 },
  { massKg: 80, factor: 1.77, modulusN: 15464.7, forceN: 7384.9, within: 0.05 },
  { massKg: 80, factor: 0.5, modulusN: 24080.9, forceN: 3744.8, within: 0.05, slopeDeg: 40, mu: 0.1 },
  { massKg: 80, factor: 1, modulusN: 24080.9, forceN: 5090.7, within: 0.05, slopeDeg: 40, mu: 0.1 },
  { massKg: 80, factor: 20 / 30, modulusN: 24080.9, forceN: 3926, within: 0.05, slopeDeg: 35, mu: 0.1 },
];

const driveN = (massKg: number, slopeDeg = 90, mu = 0): number => {
  const slope = (slopeDeg * Math.PI) / 180;
  return massKg * gravityMS2 * (Math.sin(slope) - mu * Math.cos(slope));
};

test.each(rows)('fall of $massKg kg, factor $factor: $forceN N, on any length of rope', (row) => {
  const pullN = driveN(row.massKg, row.slopeDeg, row.mu);
  for (const ropeM of [3, 17, 60]) {
    const forceN = fallForceN({ ...row, driveN: pullN, ropeM });
    expect(Math.abs(forceN - row.forceN)).toBeLessThan(row.within);
  }
});

/**
 * Derived, reduced mass: two equal masses without friction, the far one free, share the snatch, which is then 1/√2 of that
 * on a fixed end.
 */
test('a mate who holds nothing halves the energy of the snatch', () => {
  const yielding = counterweightTensionN(0, 80, 6, 1000, 80, 0, 1);
  expect(yielding / fixedEndTensionN(0, 80, 6, 1000)).toBeCloseTo(Math.SQRT1_2, 9);
});

/** Derived: a mate dragged up a slope of 35° with μ 0.1 resists 514.3 N, so steadily the faller feels 857 N at r 0.6. */
test('a mate who yields bounds the force from below by what is needed to drag them', () => {
  const slope = (35 * Math.PI) / 180;
  const holdsN = 80 * gravityMS2 * (Math.sin(slope) + 0.1 * Math.cos(slope));
  expect(Math.abs(holdsN - 514.3)).toBeLessThan(0.05);
  expect(Math.abs(holdsN / 0.6 - 857)).toBeLessThan(0.5);
  for (const speedMS of [1, 3, 9, 14]) {
    const peakN = counterweightTensionN(driveN(80, 35, 0.1), 80, speedMS, 1200, 80, holdsN, 0.6);
    expect(peakN).toBeGreaterThan(
      Math.min(857, fixedEndTensionN(driveN(80, 35, 0.1), 80, speedMS, 1200)) - 1,
    );
    expect(peakN).toBeLessThanOrEqual(fixedEndTensionN(driveN(80, 35, 0.1), 80, speedMS, 1200));
  }
});
