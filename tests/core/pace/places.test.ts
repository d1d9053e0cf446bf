import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cases } from '../../cases';
import {
  candidatesM,
  candidateStepM,
  choiceCost,
  choosePlaces,
  type PlaceChoice,
} from '../../../src/core/pace/places';

/** Every way of standing at some of the places, the end always. */
function* everyChoice(choice: PlaceChoice): Generator<number[]> {
  const end = choice.atM.length - 1;
  for (let bits = 0; bits < 2 ** (end - 1); bits++) {
    const chosen = [
      ...Array.from({ length: end - 1 }, (_, i) => i + 1).filter((i) => bits & (1 << (i - 1))),
      end,
    ];
    const inReach = chosen.every((to, i) => choice.atM[to]! <= choice.reachM(chosen[i - 1] ?? 0));
    if (inReach) yield chosen;
  }
}

const costS = (choice: PlaceChoice, chosen: readonly number[]) => {
  const { legsS, exposureS } = choiceCost(choice, chosen);
  return legsS + exposureS;
};

test('the choice costs as little as the best of all choices there are', () => {
  const short = fc.record({
    gapsM: fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 2, maxLength: 9 }),
    exposure: fc.array(fc.integer({ min: 0, max: 900 }), { minLength: 10, maxLength: 10 }),
    reach: fc.array(fc.integer({ min: 9, max: 40 }), { minLength: 10, maxLength: 10 }),
    fixedS: fc.integer({ min: 0, max: 500 }),
    offSpacingS: fc.integer({ min: 0, max: 300 }),
  });
  fc.assert(
    fc.property(short, ({ gapsM, exposure, reach, fixedS, offSpacingS }) => {
      const atM = Float64Array.from([0, ...gapsM]).map((_, i) =>
        gapsM.slice(0, i).reduce((sum, m) => sum + m, 0),
      );
      const choice: PlaceChoice = {
        atM,
        reachM: (from) => atM[from]! + reach[from]!,
        legS: (from, to) =>
          fixedS + 5 * (atM[to]! - atM[from]!) + ((atM[to]! - atM[from]!) % 10 === 0 ? 0 : offSpacingS),
        exposureS: Float64Array.from(atM, (_, i) => exposure[i]!),
      };
      const all = [...everyChoice(choice)];
      const least = (choices: number[][]) => Math.min(...choices.map((chosen) => costS(choice, chosen)));
      const { chosen, through, legsThroughS } = choosePlaces(choice);
      expect(costS(choice, chosen)).toBeCloseTo(least(all), 6);
      for (let place = 1; place < atM.length; place++) {
        const best = least(all.filter((other) => other.includes(place)));
        expect(costS(choice, through(place))).toBeCloseTo(best, 6);
        expect(legsThroughS(place)).toBeCloseTo(choiceCost(choice, through(place)).legsS, 6);
      }
    }),
    { numRuns: cases(1000) },
  );
});

describe('places looked at', () => {
  test('every step and the end, none within half a metre before it', () => {
    expect([...candidatesM(10, 4)]).toEqual([0, 4, 8, 10]);
    expect([...candidatesM(8.4, 4)]).toEqual([0, 4, 8.4]);
    expect([...candidatesM(1, 4)]).toEqual([0, 1]);
  });

  test('the step divides the spacing, and long stretches have no more than 3000 places', () => {
    expect(candidateStepM(300, 15)).toBeCloseTo(3, 9);
    expect(12 / candidateStepM(10_000, 12)).toBeCloseTo(Math.round(12 / candidateStepM(10_000, 12)), 9);
    expect(candidatesM(30_000, candidateStepM(30_000, 12)).length).toBeLessThanOrEqual(3001);
  });
});
