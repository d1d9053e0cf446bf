import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import type { Override, Project } from '../../../src/core/domain/project';
import { defaultParty } from '../../../src/core/domain/rope-team';
import type { Plan } from '../../../src/core/domain/segment';
import { stanceM } from '../../../src/core/plan/conditions';
import { planWith } from '../../../src/core/plan/make-plan';
import type { SlipPlace } from '../../../src/core/slip/tables';
import { fakeSlips } from './fake-slips';
import { markOf, evenly, placeAt, profileOf, projectOf, type Ground } from './invented';

const overrideOf = (fromM: number, toM: number, more: Partial<Override>): Override => ({
  id: 'o',
  way: 'both',
  fromM,
  toM,
  mode: null,
  snow: null,
  runOut: null,
  note: '',
  ...more,
});

function planOf(grounds: readonly Ground[], changes: Partial<Project> = {}): Plan {
  return planWith(fakeSlips, {
    profile: profileOf(grounds),
    project: projectOf(changes),
    figures: defaultFigures,
    settling: false,
  });
}

const onMode = ({ segments }: Plan, mode: string) => segments.filter((segment) => segment.mode === mode);
const codes = ({ warnings }: Plan) => warnings.map(({ code }) => code);

describe('marks', () => {
  const gentle = evenly(81, { slopeDeg: 8, runOut: 'gentle' });

  test('a crossing is belayed over its width and the stance on either side, on the gentlest ground', () => {
    const made = planOf(gentle, { marks: [markOf('crevasse-crossing', [placeAt(200, 3)], { widthM: 6 })] });
    const [crossing, ...others] = onMode(made, 'belayed-crossing');
    expect(others).toEqual([]);
    expect(crossing!.fromM).toBeCloseTo(197 - stanceM, 1);
    expect(crossing!.toM).toBeCloseTo(203 + stanceM, 1);
    expect(made.totals.crossings).toBe(1);
    expect(crossing!.time!.defaultS).toBeGreaterThan(900);
  });

  test('steep ground within a crossing asks for no pitch of a metre or two behind it, wherever the crossing ends', () => {
    const wall = Array.from({ length: 80 }, (_, i): Ground => {
      return { slopeDeg: i >= 38 && i <= 41 ? 46 : 20, runOut: 'deadly' };
    });
    for (let tenth = 0; tenth < 50; tenth++) {
      const { segments } = planOf(wall, {
        marks: [markOf('bergschrund', [placeAt(195 + tenth / 10)], { widthM: 12 })],
      });
      const after = segments.findIndex(({ mode }) => mode === 'belayed-crossing') + 1;
      const reachM = 195 + tenth / 10 + 6 + stanceM;
      expect(segments[after - 1]!.toM).toBeGreaterThan(reachM - 0.1);
      expect(segments[after - 1]!.toM).toBeLessThan(reachM + 2.6);
      expect(segments[after]!.lengthM).toBeGreaterThan(2.5);
    }
  });

  test('a crevasse drawn across the line is crossed where it is cut, and only there', () => {
    const drawn = [placeAt(190, -40), placeAt(210, 40)];
    const [crossing] = onMode(
      planOf(gentle, { marks: [markOf('crevasse-crossing', drawn, { widthM: 2 })] }),
      'belayed-crossing',
    );
    expect((crossing!.fromM + crossing!.toM) / 2).toBeCloseTo(200, 0);
    expect(crossing!.lengthM).toBeCloseTo(2 + 2 * stanceM, 0);
  });

  test('a mark far beside the line changes nothing', () => {
    const made = planOf(gentle, { marks: [markOf('crevasse-crossing', [placeAt(200, 60)])] });
    expect(made.segments.map(({ mode }) => mode)).toEqual(['roped']);
  });

  test('a line that comes back over the same crevasse crosses it twice', () => {
    const there = profileOf(evenly(41, { slopeDeg: 5, runOut: 'gentle' }));
    const stations = [
      ...there.stations,
      ...there.stations
        .slice(0, -1)
        .reverse()
        .map((station) => ({ ...station, alongM: 400 - station.alongM })),
    ];
    const made = planWith(fakeSlips, {
      profile: { ...there, stations, lengthM: 400 },
      project: projectOf({ marks: [markOf('crevasse-crossing', [placeAt(100)], { widthM: 2 })] }),
      figures: defaultFigures,
      settling: false,
    });
    expect(onMode(made, 'belayed-crossing').map(({ fromM, toM }) => Math.round((fromM + toM) / 2))).toEqual([
      100, 300,
    ]);
  });

  test('where no anchor would hold, neither does a crossing', () => {
    const steep = evenly(41, { slopeDeg: 58 });
    const made = planOf(steep, { marks: [markOf('bergschrund', [placeAt(100)])] });
    expect(onMode(made, 'belayed-crossing')).toEqual([]);
    expect(made.segments.every(({ mode }) => mode === 'none-holds')).toBe(true);
  });

  test('where roped travel holds and a weak anchor would not, a crossing is still belayed, with a warning', () => {
    const people = { ...fakeSlips, unheldAt: ({ variant }: SlipPlace) => (variant === 'roped' ? 2 : 60) };
    const made = planWith(people, {
      profile: profileOf(evenly(41, { slopeDeg: 30 })),
      project: projectOf({
        snow: { hardness: 'F', wetness: 'D' },
        marks: [markOf('crevasse-crossing', [placeAt(100)])],
      }),
      figures: defaultFigures,
      settling: false,
    });
    expect(made.segments.map(({ mode }) => mode)).toEqual(['roped', 'belayed-crossing', 'roped']);
    expect(made.warnings.find(({ code }) => code === 'weak-anchor')?.weight).toBe(3);
  });

  test('without pieces nothing holds a crossing where nothing holds the slope', () => {
    const made = planOf(evenly(41, { slopeDeg: 40 }), {
      party: { ...defaultParty, rack: { pickets: 0, captureDevices: 0 } },
      marks: [markOf('crevasse-crossing', [placeAt(100)])],
    });
    expect(made.segments.every(({ mode }) => mode === 'none-holds')).toBe(true);
  });

  test('ice: roped travel up to 20 degrees with a warning, steeper none holds, whatever snow is painted there', () => {
    const painted = [overrideOf(0, 1000, { snow: { hardness: 'P', wetness: 'D' } })];
    const area = [placeAt(95, -20), placeAt(155, -20), placeAt(155, 20), placeAt(95, 20), placeAt(95, -20)];
    const marks = [markOf('ice', area)];
    const easy = planOf(evenly(60, { slopeDeg: 18 }), { marks, overrides: painted });
    expect(easy.segments.every(({ mode }) => mode === 'roped')).toBe(true);
    expect(codes(easy)).toContain('ice');
    const steep = planOf(evenly(60, { slopeDeg: 22 }), { marks, overrides: painted });
    const [ice] = onMode(steep, 'none-holds');
    expect(ice!.fromM).toBeCloseTo(95, 0);
    expect(ice!.toM).toBeCloseTo(155, 0);
    expect(ice!.snow.hardness).toBe('I');
  });

  test('rock is outside the model, and says so', () => {
    const made = planOf(evenly(41, { slopeDeg: 25 }), {
      marks: [markOf('rock', [placeAt(100)], { widthM: 20 })],
    });
    const [rock] = onMode(made, 'none-holds');
    expect(rock!.lengthM).toBeCloseTo(20, 1);
    expect(rock!.reasons.join(' ')).toMatch(/outside this model/);
    expect(codes(made)).toContain('rock');
  });

  test('nobody gathers where a mark forbids standing, if the pieces reach further', () => {
    const steep = evenly(81, { slopeDeg: 28, runOut: 'injuring' });
    const party = { ...projectOf().party, rack: { pickets: 6, captureDevices: 0 } };
    const strict = { gentlePct: 100, injuringPct: 15, deadlyPct: 15 };
    const free = planOf(steep, { party, tolerance: strict });
    const atM = free.segments.flatMap(({ gatherings }) => gatherings.map(({ alongM }) => alongM));
    const forbiddenM = atM[1]!;
    const marks = [markOf('no-standing', [placeAt(forbiddenM)], { widthM: 8 })];
    const made = planOf(steep, { party, tolerance: strict, marks });
    const now = made.segments.flatMap(({ gatherings }) => gatherings.map(({ alongM }) => alongM));
    expect(now.some((m) => Math.abs(m - forbiddenM) < 3.9)).toBe(false);
  });
});

describe('overrides', () => {
  const grounds = evenly(81, { slopeDeg: 28 });

  test('win, are shown as overrides, and warn where they protect less than the numbers ask', () => {
    const made = planOf(grounds, {
      overrides: [overrideOf(102, 203, { mode: 'roped', note: 'fixed rope in place' })],
    });
    const [set] = onMode(made, 'roped');
    expect([set!.fromM, set!.toM]).toEqual([102, 203]);
    expect(set!.overridden).toBe(true);
    expect(set!.note).toBe('fixed rope in place');
    const warning = made.warnings.find(({ code }) => code === 'override-less')!;
    expect(warning).toMatchObject({ weight: 3, fromM: 102, toM: 203 });
    expect(warning.text).toMatch(/roped travel.*running belay/);
  });

  test('more protective ones do not warn', () => {
    const made = planOf(grounds, { overrides: [overrideOf(100, 200, { mode: 'pitched-belay' })] });
    expect(onMode(made, 'pitched-belay')).toHaveLength(1);
    expect(codes(made)).not.toContain('override-less');
  });

  test('may be none holds, with no time beyond', () => {
    const made = planOf(grounds, { overrides: [overrideOf(100, 200, { mode: 'none-holds' })] });
    expect(made.totals.notComputedBeyondM).toBe(100);
    expect(made.totals.byMode['none-holds']).toEqual({ lengthM: 100, timeS: null });
  });

  test('a painted run-out class decides, and the reason says who set it', () => {
    const made = planOf(grounds, { overrides: [overrideOf(100, 200, { runOut: 'gentle' })] });
    const [easy] = onMode(made, 'roped');
    expect(easy!.fromM).toBe(100);
    // The belay may begin a little before it must, from the better place to stand.
    expect(easy!.toM).toBeGreaterThan(180);
    expect(easy!.toM).toBeLessThanOrEqual(200);
    expect(easy!.reasons.join(' ')).toMatch(/set by the guide/);
    expect(easy!.overridden).toBe(false);
  });

  test('roped travel set on ground without data warns', () => {
    const made = planOf(evenly(41, { slopeDeg: null }), {
      overrides: [overrideOf(0, 200, { mode: 'roped' })],
    });
    expect(made.segments.map(({ mode, time }) => [mode, time])).toEqual([['roped', null]]);
    expect(codes(made)).toContain('override-less');
  });

  test('of two on the same place the later counts', () => {
    const overrides = [
      overrideOf(0, 300, { mode: 'pitched-belay' }),
      overrideOf(100, 200, { mode: 'roped' }),
    ];
    const made = planOf(grounds, { overrides });
    expect(made.segments.filter(({ toM }) => toM <= 300).map(({ mode }) => mode)).toEqual([
      'pitched-belay',
      'roped',
      'pitched-belay',
    ]);
  });

  test('shorter than a step they still begin and end where they were drawn', () => {
    const made = planOf(grounds, { overrides: [overrideOf(101.2, 103.9, { mode: 'roped' })] });
    const [set] = onMode(made, 'roped');
    expect([set!.fromM, set!.toM]).toEqual([101.2, 103.9]);
  });
});

describe('ground without data', () => {
  test('has no mode, is never taken for roped travel, and stops the clock', () => {
    const made = planOf([
      ...evenly(41, { slopeDeg: 5 }),
      ...evenly(20, { slopeDeg: null }),
      ...evenly(41, { slopeDeg: 5 }),
    ]);
    expect(made.segments.map(({ mode }) => mode)).toEqual(['roped', 'no-data', 'roped']);
    const [, hole] = made.segments;
    expect(hole).toMatchObject({ time: null, slopeMaxDeg: null, runOut: null, ascentM: null });
    expect(made.totals.notComputedBeyondM).toBe(hole!.fromM);
    expect(made.totals.ascentM).toBeNull();
  });
});
