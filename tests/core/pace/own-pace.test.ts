import { describe, expect, test } from 'vitest';
import { usualPace, walkingFactorAt } from '../../../src/core/pace/own-pace';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { walkedS, walkedSecondsPerM } from '../../../src/core/pace/walked';
import { slopeLine } from './slope-line';

const own = {
  ...usualPace,
  walkingFactor: 1.1,
  walkingByGrade: [{ fromDeg: 10, toDeg: 20, factor: 1.5 }],
};

describe('the own pace by the grade of the way', () => {
  test('is its class’s where one is known, up and down, else the one for all', () => {
    expect([0, 9.99, 10, -15, 19.9, 20, 45].map((deg) => walkingFactorAt(own, deg))).toEqual([
      1.1, 1.1, 1.5, 1.5, 1.5, 1.1, 1.1,
    ]);
  });

  test.each(['munter', 'tobler', 'din-33466'] as const)('multiplies the walk by %s', (rule) => {
    for (const [gradeDeg, factor] of [
      [5, 1.1],
      [15, 1.5],
    ] as const) {
      const stations = slopeLine({ lengthM: 400, gradeDeg });
      const walk = {
        ...{ stations, fromM: 0, toM: 400, rule, figures: defaultFigures },
        snow: { hardness: 'P', wetness: 'D' } as const,
      };
      expect(walkedS({ ...walk, own }) / walkedS(walk)).toBeCloseTo(factor, 9);
      const perM = (pace: typeof own) => walkedSecondsPerM(gradeDeg, 1000, { ...walk, own: pace });
      expect(perM(own) / perM({ ...own, walkingFactor: 1, walkingByGrade: [] })).toBeCloseTo(factor, 9);
    }
  });
});
