import { expect, test } from 'vitest';
import { gravityMS2 } from '../../src/core/domain/gravity';
import { slideAcceleration, slideTimeS, speedSquaredAfter } from '../../src/core/slip/free-slide';

const rad = (deg: number): number => (deg * Math.PI) / 180;
const accelerationOn = (slopeDeg: number, mu: number) =>
  slideAcceleration(Math.sin(rad(slopeDeg)), Math.cos(rad(slopeDeg)), mu);
const speedAfter = (accelerationMS2: number, distanceM: number) =>
  Math.sqrt(speedSquaredAfter(0, accelerationMS2, distanceM));

/**
 * Coulomb friction on an incline, a = g (sin θ − μ cos θ), v = √(2 a s), t = √(2 s / a), worked for 10 m of slope with
 * g = 9.80665 m/s². The last column is speed over free fall of the same drop. Tolerance: half of the last printed digit.
 */
test.each([
  { slopeDeg: 30, mu: 0.1, a: 4.054, v: 9.004, t: 2.221, ofFreeFall: 0.909 },
  { slopeDeg: 35, mu: 0.05, a: 5.2232, v: 10.221, t: 1.957, ofFreeFall: 0.964 },
  { slopeDeg: 35, mu: 0.1, a: 4.8215, v: 9.82, t: 2.037, ofFreeFall: 0.926 },
  { slopeDeg: 40, mu: 0.05, a: 5.928, v: 10.889, t: 1.837, ofFreeFall: 0.97 },
  { slopeDeg: 40, mu: 0.2, a: 4.8011, v: 9.799, t: 2.041, ofFreeFall: 0.873 },
  { slopeDeg: 45, mu: 0.1, a: 6.2409, v: 11.172, t: 1.79, ofFreeFall: 0.949 },
])('10 m down $slopeDeg degrees with friction $mu: $v m/s', ({ slopeDeg, mu, a, v, t, ofFreeFall }) => {
  const acceleration = accelerationOn(slopeDeg, mu);
  const speedMS = speedAfter(acceleration, 10);
  expect(Math.abs(acceleration - a)).toBeLessThan(0.000051);
  expect(Math.abs(speedMS - v)).toBeLessThan(0.00051);
  expect(Math.abs(slideTimeS(0, speedMS, 10) - t)).toBeLessThan(0.00051);
  const freeFallMS = Math.sqrt(2 * gravityMS2 * 10 * Math.sin(rad(slopeDeg)));
  expect(Math.abs(speedMS / freeFallMS - ofFreeFall)).toBeLessThan(0.00051);
});

/**
 * Second-hand: trials of the Austrian Alpine Club on hard firn, as the club states them on its web page: at 40° a slide reaches about 98 % of the speed of free fall over
 * the same drop. Read as equal drop, that is μ = (1 − 0.98²) tan 40° = 0.0332 (tolerance 0.0001).
 */
test('98 % of free fall at 40 degrees is a friction of 0.033', () => {
  const mu = (1 - 0.98 * 0.98) * Math.tan(rad(40));
  expect(Math.abs(mu - 0.0332)).toBeLessThan(0.0001);
  const speedMS = speedAfter(accelerationOn(40, mu), 100);
  expect(speedMS / Math.sqrt(2 * gravityMS2 * 100 * Math.sin(rad(40)))).toBeCloseTo(0.98, 9);
});

/** Derived: slide before the arrest begins, 35°, μ 0.1: s = ½ a t², v = a t. Tolerance: half of the last printed digit. */
test.each([
  [0.5, 0.6, 2.41],
  [1, 2.41, 4.82],
  [1.5, 5.42, 7.23],
  [2, 9.64, 9.64],
])('after %d s one has slid %d m and moves at %d m/s', (timeS, slidM, speedMS) => {
  const acceleration = accelerationOn(35, 0.1);
  expect(Math.abs(0.5 * acceleration * timeS * timeS - slidM)).toBeLessThan(0.0051);
  expect(Math.abs(speedAfter(acceleration, 0.5 * acceleration * timeS * timeS) - speedMS)).toBeLessThan(
    0.0051,
  );
});
