import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
import { quickestSequence, type SequenceCosts } from '../../../src/core/plan/sequence';

function secondsOf({ placeS, enterS, changeS }: SequenceCosts, states: number, sequence: ArrayLike<number>) {
  let total = 0;
  for (let place = 0; place < sequence.length; place++) {
    total += placeS[place * states + sequence[place]!]!;
    if (place === 0 || sequence[place - 1] !== sequence[place])
      total += enterS[place * states + sequence[place]!]!;
    if (place > 0) total += changeS[sequence[place - 1]! * states + sequence[place]!]!;
  }
  return total;
}

function* everySequence(places: number, states: number): Generator<number[]> {
  for (let code = 0; code < states ** places; code++) {
    yield Array.from({ length: places }, (_, place) => Math.floor(code / states ** place) % states);
  }
}

const problem = fc
  .record({ places: fc.integer({ min: 1, max: 6 }), states: fc.integer({ min: 1, max: 4 }) })
  .chain(({ places, states }) =>
    fc.record({
      states: fc.constant(states),
      placeS: fc.array(
        fc
          .array(fc.oneof(between(0, 900), fc.constant(Infinity)), {
            minLength: states,
            maxLength: states,
          })
          .filter((row) => row.some((s) => s < Infinity)),
        { minLength: places, maxLength: places },
      ),
      enterS: fc.array(between(0, 900), {
        minLength: places * states,
        maxLength: places * states,
      }),
      changeS: fc.array(between(0, 900), {
        minLength: states * states,
        maxLength: states * states,
      }),
    }),
  );

const onePlace = (...placeS: number[]): SequenceCosts => ({
  placeS: Float64Array.from(placeS),
  enterS: new Float64Array(2),
  changeS: new Float64Array(4),
});

describe('quickest sequence', () => {
  test('is as quick as the best of all sequences, and never where it may not stand', () => {
    fc.assert(
      fc.property(problem, ({ states, placeS, enterS, changeS }) => {
        const costs = {
          placeS: Float64Array.from(placeS.flat()),
          enterS: Float64Array.from(enterS),
          changeS: Float64Array.from(changeS),
        };
        const sequence = quickestSequence(costs, states);
        const seconds = secondsOf(costs, states, sequence);
        let best = Infinity;
        for (const other of everySequence(placeS.length, states)) {
          best = Math.min(best, secondsOf(costs, states, other));
        }
        expect(seconds).toBeLessThan(Infinity);
        expect(seconds).toBeLessThanOrEqual(best + 1e-9);
      }),
      { numRuns: cases(1000) },
    );
  });

  test('of two equally quick, the more protective stands', () => {
    expect([...quickestSequence(onePlace(5, 5), 2)]).toEqual([1]);
  });

  test('a place where nothing may stand is a defect', () => {
    expect(() => quickestSequence(onePlace(Infinity, Infinity), 2)).toThrow();
  });
});
