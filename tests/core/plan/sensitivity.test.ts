import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import type { Project } from '../../../src/core/domain/project';
import type { Flip } from '../../../src/core/domain/segment';
import { planWith } from '../../../src/core/plan/make-plan';
import { fakeSlips } from './fake-slips';
import { evenly, profileOf, projectOf, type Ground } from './invented';

/** The one segment of an even slope. */
function segmentOn(ground: Ground, changes: Partial<Project> = {}) {
  const made = planWith(fakeSlips, {
    profile: profileOf(evenly(60, ground)),
    project: projectOf(changes),
    figures: defaultFigures,
    settling: false,
    otherAbilities: [
      {
        from: 'as they are',
        to: 'a step weaker',
        lookup: {
          ...fakeSlips,
          unheldAt: (place) =>
            place.variant === 'pitched'
              ? fakeSlips.unheldAt(place)
              : Math.min(100, fakeSlips.unheldAt(place) + 30),
        },
      },
    ],
  });
  expect(made.segments).toHaveLength(1);
  return made.segments[0]!;
}

const of = (flips: readonly Flip[], input: Flip['input']) =>
  flips.filter((flip) => flip.input === input).map(({ to, mode }) => `${to}: ${mode}`);

describe('what would flip a segment', () => {
  // Roped travel fails 4 of 100 per degree above 20: at 24 degrees 16 are unheld, one too many above a deadly run-out.
  const found = () => segmentOn({ slopeDeg: 24 });

  test('the mode it is about', () => expect(found().mode).toBe('running-belay'));

  test('slope: the nearest whole step to either side', () =>
    expect(of(found().flips, 'slope')).toEqual(['23°: roped', '32°: pitched-belay']));

  test('tolerance: the least that admits less protection, the most that asks for more', () =>
    expect(of(found().flips, 'tolerance')).toEqual(['16 of 100: roped']));

  test('run-out, hardness and ability', () => {
    const { flips } = found();
    expect(of(flips, 'run-out')).toEqual(['injuring: roped']);
    expect(of(flips, 'hardness')).toEqual(['one finger: roped', 'ice: none-holds']);
    expect(of(flips, 'ability')).toEqual(['a step weaker: pitched-belay']);
  });

  test('every flip is true: planned with that slope, the segment has that mode', () => {
    for (const slopeDeg of [10, 17, 22, 26, 30, 34, 41, 47, 52, 58]) {
      for (const flip of segmentOn({ slopeDeg }).flips.filter(({ input }) => input === 'slope')) {
        expect(segmentOn({ slopeDeg: Number.parseInt(flip.to, 10) }).mode).toBe(flip.mode);
      }
    }
  });

  test('and with that tolerance', () => {
    for (const slopeDeg of [23, 27, 31, 36, 42, 49]) {
      for (const flip of segmentOn({ slopeDeg }).flips.filter(({ input }) => input === 'tolerance')) {
        const tolerance = { gentlePct: 100, injuringPct: 100, deadlyPct: Number.parseInt(flip.to, 10) };
        expect(segmentOn({ slopeDeg }, { tolerance }).mode).toBe(flip.mode);
      }
    }
  });

  test('what the guide has set is not flipped by numbers', () => {
    const overrides = [
      {
        id: 'o',
        way: 'both' as const,
        fromM: 0,
        toM: 400,
        mode: 'roped' as const,
        snow: null,
        runOut: null,
        note: '',
      },
    ];
    expect(segmentOn({ slopeDeg: 24 }, { overrides }).flips).toEqual([]);
  });
});

test('where the run-out of another snow is unknown it counts as the worst', () => {
  const profile = profileOf(evenly(60, { slopeDeg: 24, runOut: 'injuring' }));
  const blind = { ...profile, stations: profile.stations.map((station) => ({ ...station, runOut: null })) };
  const { segments } = planWith(fakeSlips, {
    profile: blind,
    project: projectOf(),
    figures: defaultFigures,
    settling: false,
  });
  expect(segments[0]!.decidedAt.runOut).toBe('deadly');
  expect(of(segments[0]!.flips, 'hardness')).toContain('one finger: roped');
});
