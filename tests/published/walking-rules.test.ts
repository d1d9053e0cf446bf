import { describe, expect, test } from 'vitest';
import { din33466S, munterS, toblerMS, toblerS } from '../../src/core/pace/walking';

const hours = (seconds: number) => seconds / 3600;

/**
 * W. Munter's rule, (kilometres + hundreds of metres up or down) / rate, rates on foot 4 up and 6 level or down: as explained
 * in mountaineering courses and public forum threads on planning times. Worked in hours; exact.
 */
describe('Munter', () => {
  const onFoot = { up: 4, levelOrDown: 6 };
  test.each([
    { lengthM: 4000, riseM: 800, expectedH: 3 },
    { lengthM: 4000, riseM: -800, expectedH: 2 },
    { lengthM: 9500, riseM: 500, expectedH: 3.625 },
  ])('$lengthM m with $riseM m takes $expectedH h', ({ expectedH, ...leg }) => {
    expect(hours(munterS(leg, onFoot))).toBeCloseTo(expectedH, 9);
  });
});

/**
 * W. Tobler, "Three presentations on geographical analysis and modeling", NCGIA Technical Report 93-1 (1993):
 * v = 6 exp(-3.5 |S + 0.05|) km/h. Its own statements: fastest, 6 km/h, at S = -0.05; about 5 km/h on the level. The other rows
 * are the formula worked out to four decimals. Tolerance: half of the last one.
 */
describe('Tobler', () => {
  test.each([
    { tangent: 0, kmh: 5.0367 },
    { tangent: -0.05, kmh: 6 },
    { tangent: 0.1, kmh: 3.5493 },
    { tangent: 0.2, kmh: 2.5012 },
    { tangent: 0.3, kmh: 1.7625 },
    { tangent: Math.tan((20 * Math.PI) / 180), kmh: 1.409 },
    { tangent: Math.tan((30 * Math.PI) / 180), kmh: 0.6677 },
  ])('a grade of $tangent is walked at $kmh km/h', ({ tangent, kmh }) => {
    expect(Math.abs(toblerMS(tangent) * 3.6 - kmh)).toBeLessThan(5e-5);
    expect(hours(toblerS({ lengthM: 1000, riseM: 1000 * tangent }))).toBeCloseTo(1 / kmh, 3);
  });
});

/**
 * DIN 33466 (1997), walking times on signposts: 4 km/h, 300 m/h up, 500 m/h down, the larger and half the smaller; form and
 * rates as quoted in several public texts, the standard itself not read. Worked in hours; exact.
 */
describe('DIN 33466', () => {
  test.each([
    { lengthM: 10_000, ascentM: 900, descentM: 900, expectedH: 6.05 },
    { lengthM: 10_000, ascentM: 900, descentM: 0, expectedH: 4.25 },
    { lengthM: 8000, ascentM: 1000, descentM: 0, expectedH: 4 + 1 / 3 },
  ])('$lengthM m, $ascentM m up, $descentM m down take $expectedH h', ({ expectedH, ...leg }) => {
    expect(hours(din33466S(leg))).toBeCloseTo(expectedH, 9);
  });

  test('does not add up over pieces, so it is for whole legs only', () => {
    const flat = { lengthM: 5000, ascentM: 0, descentM: 0 };
    const steep = { lengthM: 5000, ascentM: 900, descentM: 0 };
    const whole = { lengthM: 10_000, ascentM: 900, descentM: 0 };
    expect(din33466S(flat) + din33466S(steep)).toBeGreaterThan(din33466S(whole) + 600);
  });
});
