import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import {
  altitudeFactor,
  munterS,
  snowAndRestFactor,
  toblerS,
  withoutWiggles,
} from '../../../src/core/pace/walking';
import { walkedS, walkedSecondsPerM, type WalkOptions } from '../../../src/core/pace/walked';
import { slopeLine } from './slope-line';

const { walking } = defaultFigures;

describe('wiggles', () => {
  test('small ups and downs are taken out, large ones stay', () => {
    expect([...withoutWiggles([0, 2, 1, 4, 10], 3)]).toEqual([0, 2, 2, 4, 10]);
    expect([...withoutWiggles([0, 5, 1, 6], 3)]).toEqual([0, 5, 1, 6]);
    expect([...withoutWiggles([10, 11, 9.5, 10.5, 3], 3)]).toEqual([10, 10, 9.5, 9.5, 3]);
  });

  test('a climb that ends just below its top keeps its net rise', () => {
    const smooth = withoutWiggles([0, 20, 50, 49], 3);
    expect([smooth[0], smooth[3]]).toEqual([0, 49]);
    expect(totalRise(smooth)).toBe(49);
  });

  test('unknown elevations stay unknown, and each run beside them is treated by itself', () => {
    expect([...withoutWiggles([0, 1, 0, NaN, 9, 8, 9], 3)]).toEqual([0, 0, 0, NaN, 9, 9, 9]);
  });

  test('ends stay, nothing turns within 3 m, and rise is never more than before', () => {
    const profile = fc.array(between(0, 40), { minLength: 2, maxLength: 60 });
    fc.assert(
      fc.property(profile, (elevationM) => {
        const smooth = [...withoutWiggles(elevationM, 3)];
        expect([smooth[0], smooth.at(-1)]).toEqual([elevationM[0], elevationM.at(-1)]);
        expect(totalRise(smooth)).toBeLessThanOrEqual(totalRise(elevationM) + 1e-9);
        const turns = smooth.filter((z, i) => i > 0 && i < smooth.length - 1 && isTurn(smooth, i, z));
        const legs = [smooth[0]!, ...turns, smooth.at(-1)!];
        const inner = legs
          .slice(1)
          .map((z, i) => Math.abs(z - legs[i]!))
          .slice(1, -1);
        expect(inner.every((m) => m >= 3 - 1e-9)).toBe(true);
      }),
      { numRuns: cases(1000) },
    );
  });
});

describe('a roped party on even ground', () => {
  const options = (gradeDeg: number, more: Partial<WalkOptions> = {}): WalkOptions => ({
    stations: slopeLine({ lengthM: 1000, gradeDeg }),
    fromM: 0,
    toM: 1000,
    snow: { hardness: 'P', wetness: 'D' },
    figures: defaultFigures,
    ...more,
  });
  const rise = (gradeDeg: number) => 1000 * Math.tan((gradeDeg * Math.PI) / 180);

  test('goes up at 3, level and down at 5', () => {
    expect(walkedS(options(20))).toBeCloseTo(((1 + rise(20) / 100) / 3) * 3600, 6);
    expect(walkedS(options(0))).toBeCloseTo((1 / 5) * 3600, 6);
    expect(walkedS(options(-20))).toBeCloseTo(((1 + rise(20) / 100) / 5) * 3600, 6);
  });

  test('takes longer in deep snow, with rests, at the team’s own pace', () => {
    const plain = walkedS(options(20));
    expect(walkedS(options(20, { snow: { hardness: '4F', wetness: 'D' } }))).toBeCloseTo(1.3 * plain, 6);
    expect(
      walkedS(options(20, { own: { walkingFactor: 1.2, walkingByGrade: [], placementFactor: 1 } })),
    ).toBeCloseTo(1.2 * plain, 6);
    const resting = { ...defaultFigures, walking: { ...walking, restMinPerH: 10 } };
    expect(walkedS(options(20, { figures: resting }))).toBeCloseTo((60 / 50) * plain, 6);
  });

  test('stretches add up to the whole, and to the rate a metre', () => {
    for (const gradeDeg of [-25, 0, 12, 30]) {
      const whole = walkedS(options(gradeDeg));
      const parts = [0, 123.4, 500, 777, 1000];
      const sum = parts
        .slice(1)
        .reduce((s, toM, i) => s + walkedS(options(gradeDeg, { fromM: parts[i]!, toM })), 0);
      expect(sum).toBeCloseTo(whole, 6);
      for (const rule of ['munter', 'tobler', 'din-33466'] as const) {
        const perM = walkedSecondsPerM(gradeDeg, 0, options(gradeDeg, { rule }));
        expect(1000 * perM).toBeCloseTo(walkedS(options(gradeDeg, { rule })), 4);
      }
    }
  });

  test('unknown elevation gives no time', () => {
    const stations = slopeLine({ lengthM: 1000, gradeDeg: 5 }).map((station, i) =>
      i === 7 ? { ...station, elevationM: null } : station,
    );
    for (const rule of ['munter', 'tobler', 'din-33466'] as const) {
      expect(walkedS(options(5, { stations, rule }))).toBeNaN();
    }
    expect(walkedS(options(5, { stations, fromM: 100 }))).not.toBeNaN();
  });
});

/** Power falls 1 % for each 100 m above 1500 m (Buskirk 1967, from memory): a third longer at 4000 m. */
test('height slows', () => {
  expect(altitudeFactor(4000, walking)).toBeCloseTo(1 / 0.75, 9);
  expect(altitudeFactor(1500, walking)).toBe(1);
  expect(altitudeFactor(-50, walking)).toBe(1);
  expect(altitudeFactor(8800, walking)).toBeGreaterThan(altitudeFactor(8000, walking));
});

test('factors are one in firm snow without rests', () => {
  expect(snowAndRestFactor('P', walking)).toBe(1);
  expect(munterS({ lengthM: 0, riseM: 0 }, { up: 3, levelOrDown: 5 })).toBe(0);
});

const totalRise = (z: ArrayLike<number>) => {
  let rise = 0;
  for (let i = 1; i < z.length; i++) rise += Math.max(0, z[i]! - z[i - 1]!);
  return rise;
};

/** The last place of a high or a low. */
function isTurn(z: readonly number[], i: number, here: number): boolean {
  const before = z.slice(0, i).findLast((value) => value !== here);
  const after = z[i + 1]!;
  return before !== undefined && after !== here && before < here !== here < after;
}

test('no ground takes no time, a single elevation has no wiggles', () => {
  expect(toblerS({ lengthM: 0, riseM: 0 })).toBe(0);
  expect([...withoutWiggles([512], 3)]).toEqual([512]);
  expect([...withoutWiggles([], 3)]).toEqual([]);
});
