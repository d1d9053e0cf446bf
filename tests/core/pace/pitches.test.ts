import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cases } from '../../cases';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { defaultParty } from '../../../src/core/domain/rope-team';
import { pitchActs } from '../../../src/core/pace/acts';
import {
  followersTogether,
  longestPitchM,
  pitchS,
  runnerCount,
  runPitches,
  stancesAtRopeEndM,
  type PitchesOptions,
} from '../../../src/core/pace/pitches';

const usual: PitchesOptions = {
  lengthM: 120,
  climbers: 3,
  stancesAtM: [50, 100, 120],
  runnerM: 8,
  together: true,
  apartM: 3,
  acts: { placeS: 150, removeS: 45, anchorS: 300, changeS: 120, leadMS: 0.1, followMS: 0.2 },
};

test('runners stand every 8 m, none at the stance', () => {
  expect([7, 8, 8.1, 16, 16.1, 50].map((pitchM) => runnerCount(pitchM, 8))).toEqual([0, 0, 1, 1, 2, 6]);
});

test('a pitch is as long as the rope gives, 50 m at most', () => {
  const party = (climbers: number, lengthM: number) => ({
    climbers: Array.from({ length: climbers }, () => defaultParty.climbers[0]!),
    rope: { ...defaultParty.rope, lengthM },
  });
  expect(longestPitchM(party(2, 60), defaultFigures)).toBe(50);
  expect(longestPitchM(party(3, 50), defaultFigures)).toBe(41);
  expect(longestPitchM(party(5, 40), defaultFigures)).toBe(25);
});

test('full rope lengths, then the rest', () => {
  expect(stancesAtRopeEndM(120, 50)).toEqual([50, 100, 120]);
  expect(stancesAtRopeEndM(100, 50)).toEqual([50, 100]);
  expect(stancesAtRopeEndM(7, 50)).toEqual([7]);
});

/** Worked by hand from the sum over pitches. */
test('120 m in three pitches', () => {
  const full = 500 + 6 * 150 + 300 + 250 + 6 * 45 + 120;
  const short = 200 + 2 * 150 + 300 + 100 + 2 * 45;
  const run = runPitches(usual);
  expect(run.timeS).toBeCloseTo(300 + 2 * full + short, 6);
  expect(run).toMatchObject({ pitches: 3, piecesPlaced: 14 + 8, pickets: 10 });
});

test('one after the other, each follower takes a time of their own', () => {
  const alone = runPitches({ ...usual, together: false });
  expect(alone.timeS - runPitches(usual).timeS).toBeCloseTo(120 / 0.2, 6);
});

test('followers climb together in hard snow only', () => {
  expect((['F', '4F', '1F', 'P', 'K'] as const).map(followersTogether)).toEqual([
    false,
    false,
    false,
    true,
    true,
  ]);
});

describe('log', () => {
  const any = fc
    .record({
      pitches: fc.array(fc.integer({ min: 3, max: 50 }), { minLength: 1, maxLength: 6 }),
      climbers: fc.integer({ min: 2, max: 6 }),
      together: fc.boolean(),
    })
    .map(({ pitches, climbers, together }): PitchesOptions => {
      const stancesAtM = pitches.map((_, i) => pitches.slice(0, i + 1).reduce((sum, m) => sum + m, 0));
      return { ...usual, climbers, together, stancesAtM, lengthM: stancesAtM.at(-1)! };
    });

  test('tells the same time, goes on without gaps, and takes every runner out', () => {
    fc.assert(
      fc.property(any, (options) => {
        const { events, timeS, runnersAtM } = runPitches(options);
        expect(Math.max(...events.map(({ toS }) => toS))).toBeCloseTo(timeS, 6);
        const ends = options.stancesAtM;
        const sum = ends.reduce((s, endM, i) => s + pitchS(endM - (ends[i - 1] ?? 0), options), 0);
        expect(timeS).toBeCloseTo(options.acts.anchorS + sum - options.acts.changeS, 6);
        const removed = events.filter(({ what }) => what === 'remove').map(({ fromM }) => fromM);
        expect(removed).toEqual(runnersAtM);
        for (let who = 0; who < options.climbers; who++) {
          const own = events.filter((event) => event.who === who);
          const broken = own.find((event, i) => {
            const next = own[i + 1];
            return (
              next !== undefined && (next.fromS < event.toS - 1e-6 || Math.abs(next.fromM - event.toM) > 1e-6)
            );
          });
          expect(broken).toBeUndefined();
          expect(own.at(-1)?.toM).toBeCloseTo(options.lengthM, 6);
        }
      }),
      { numRuns: cases(1000) },
    );
  });
});

/** Judgement, as are all times of acts: nobody has published any. */
test.each([
  [2, 120],
  [3, 240],
])('with %i on the rope a change-over takes %i s', (climbers, seconds) => {
  expect(pitchActs({ hardness: 'P', wetness: 'D' }, climbers, defaultFigures, 'usual')!.changeS).toBe(
    seconds,
  );
});
