import { expect, test } from 'vitest';
import { defaultFigures } from '../../src/core/assumptions/figures';
import { pieceLoadN, turnedRatio } from '../../src/core/slip/rope-forces';

/**
 * Statics: vector sum of two rope legs, F₂ = r F₁ with r 0.6 (ratios of 0.52 to 0.66 are commonly printed; the original pages
 * were not seen). Load on the piece over F₁ by the angle between the pulls; tolerance half of the last digit.
 */
test.each([
  [0, 1.6],
  [30, 1.549],
  [60, 1.4],
  [90, 1.166],
  [120, 0.872],
])('legs at %d degrees load the piece with %d times the force', (angleDeg, factor) => {
  const ratio = defaultFigures.rope.carabinerRatio;
  expect(ratio).toBe(0.6);
  expect(Math.abs(pieceLoadN(1, ratio, (angleDeg * Math.PI) / 180) - factor)).toBeLessThan(0.00051);
});

/** Capstan law (Euler, Eytelwein): r = exp(−μ π) for a full turn back, so μ 0.132 is 0.66 and μ 0.208 is 0.52 (within 0.001). */
test.each([
  [0.132, 0.66],
  [0.208, 0.52],
])('friction %d is a ratio of %d over a full turn', (mu, ratio) => {
  expect(Math.abs(Math.exp(-mu * Math.PI) - ratio)).toBeLessThan(0.001);
  for (const turnRad of [0, 0.5, 1, Math.PI / 2, 2, Math.PI]) {
    expect(turnedRatio(Math.exp(-mu * Math.PI), turnRad)).toBeCloseTo(Math.exp(-mu * turnRad), 12);
  }
});

test('without friction both legs pull alike and the piece takes twice the force', () => {
  expect(pieceLoadN(1, turnedRatio(1, Math.PI), 0)).toBe(2);
});
