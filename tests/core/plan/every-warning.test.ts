import { expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import type { Mark } from '../../../src/core/domain/mark';
import type { Note } from '../../../src/core/domain/problem';
import type { Mode } from '../../../src/core/domain/mode';
import type { Override, Project } from '../../../src/core/domain/project';
import { defaultParty } from '../../../src/core/domain/rope-team';
import { planWith, type PlanInput } from '../../../src/core/plan/make-plan';
import { fakeSlips } from './fake-slips';
import { evenly, markOf, placeAt, profileOf, projectOf, type Ground } from './invented';

interface More extends Partial<PlanInput> {
  /** Of the survey, one for each raster. */
  readonly years?: readonly (string | null)[];
  readonly notes?: readonly Note[];
}

/**
 * All that is said of a plan, off a glacier unless said otherwise: weight, place and words, in the order of the list. The lists
 * were read one by one against what a guide would want to hear.
 */
function said(
  grounds: readonly Ground[],
  changes: Partial<Project> = {},
  { years = ['2025'], notes = [], ...more }: More = {},
) {
  const plan = planWith(fakeSlips, {
    profile: { ...surveyed(grounds, years), notes },
    project: projectOf({ onGlacier: false, ...changes }),
    figures: defaultFigures,
    settling: false,
    today: '2026-01-17',
    ...more,
  });
  const lines = ({ warnings }: typeof plan) =>
    warnings.map(({ weight, code, fromM, toM, text }) => {
      const place = fromM === null ? 'everywhere' : `${round(fromM)}-${round(toM!)}`;
      return `${weight} ${code} ${place}: ${text}`;
    });
  return { there: lines(plan), back: plan.wayBack === null ? [] : lines(plan.wayBack) };
}
const round = (m: number) => Math.round(m * 10) / 10;

const gentle = evenly(60, { slopeDeg: 8, runOut: 'gentle' });
const running = evenly(60, { slopeDeg: 26 });
const override = (mode: Mode, fromM: number, toM: number, more: Partial<Override> = {}): Override => ({
  ...{ id: `${mode}${fromM}`, way: 'both', fromM, toM, mode, snow: null, runOut: null, note: '' },
  ...more,
});
const mark = (kind: Mark['kind'], alongM: number, more: Partial<Mark> = {}) =>
  markOf(kind, [placeAt(alongM)], more);
const party = (changes: { climbers?: number; pickets?: number; devices?: number; rope?: object }) => ({
  climbers: Array.from({ length: changes.climbers ?? 3 }, (_, i) => ({
    ...{ name: `C${i}`, massKg: 80, ability: 'solid' as const, mayLead: true },
  })),
  rope: { ...defaultParty.rope, ...changes.rope },
  rack: { pickets: changes.pickets ?? 3, captureDevices: changes.devices ?? 0 },
});

const day = (changes: Partial<Project['schedule']>): Project['schedule'] => ({
  ...projectOf().schedule,
  ...changes,
});
const otherLine = {
  id: 'other',
  name: 'other',
  points: [0, 295].map((m) => ({ position: placeAt(m, 80), elevationM: null, timeMs: null })),
};
const surveyed = (grounds: readonly Ground[], years: readonly (string | null)[]) => {
  const profile = profileOf(grounds);
  const [terrain] = profile.terrain;
  return {
    ...profile,
    terrain: years.map((year, i) => ({ ...terrain!, name: `raster ${i + 1}`, surveyed: year })),
  };
};

test('on a glacier: what no figure holds, where nothing holds, and where nothing is known', () => {
  expect(
    said(
      [...gentle, ...running, ...evenly(20, { slopeDeg: 66 }), ...evenly(20, { slopeDeg: null }), ...gentle],
      { onGlacier: true },
      { years: [null] },
    ),
  ).toEqual({
    there: [
      '3 none-holds 597.5-695: None holds well enough: another line, other snow (wait for the freeze), or turn back.',
      '3 no-data 695-800: The elevation data say nothing here: slope and run-out are unknown, no mode can be given.',
      '2 survey-age everywhere: raster 1: date of survey unknown; on a glacier surface and crevasses move.',
      '2 crevasse-falls 0-1095: Roped travel: crevasse falls are not in these figures.',
      '2 bad-gathering 314.3-594.7: 27 of 28 gatherings in bad places (deadly or unknown run-out, or no standing).',
      '1 no-knots 0-1095: No brake knots on a rope of two or three on a glacier: they help to hold a crevasse fall.',
    ],
    back: [],
  });
});

test('marks on and at the line, each with its care', () => {
  expect(
    said(evenly(160, { slopeDeg: 8, runOut: 'gentle' }), {
      marks: [
        mark('crevasse-crossing', 50, { widthM: 3, bridge: 'solid' }),
        mark('bergschrund', 150, { widthM: 3, bridge: 'poor' }),
        mark('moat', 250, { widthM: 3, bridge: 'doubtful' }),
        mark('cornice', 350),
        mark('cliff', 450),
        mark('serac', 500),
        mark('water', 600),
        mark('rock', 700),
        mark('note', 720),
      ],
    }),
  ).toEqual({
    there: [
      '3 crossing 148.5-151.5: Bergschrund, bridge poor: whether a bridge holds, only a person on the spot can tell.',
      '3 crossing 248.5-251.5: Moat, bridge doubtful: whether a bridge holds, only a person on the spot can tell.',
      '2 crossing 48.5-51.5: Crevasse crossing: whether a bridge holds, only a person on the spot can tell.',
      '2 cornice 345-355: Cornice: keep well back from its edge; nobody stands here. That it breaks is not in these figures.',
      '2 cliff 450-450: Cliff at the line.',
      '2 serac 500-500: Serac at the line: ice fall is not in these figures.',
      '2 water 600-600: Water at the line.',
      '2 rock 695-705: Rock: slips and pieces on rock are outside this model.',
    ],
    back: [],
  });
});

test('a crossing on bare ice', () => {
  expect(
    said(evenly(60, { slopeDeg: 8 }), {
      overrides: [override('roped', 100, 200, { mode: null, snow: { hardness: 'I', wetness: 'D' } })],
      marks: [mark('crevasse-crossing', 150, { widthM: 3 })],
    }),
  ).toEqual({
    there: [
      '3 ice 100-200: Bare ice: a slip is not held by snow pieces or by people; ice screws are outside this model.',
      '3 weak-anchor 143.5-156.5: Crossing on bare ice: snow pieces make no anchor; ice screws are outside this model.',
      '2 crossing 148.5-151.5: Crevasse crossing: whether a bridge holds, only a person on the spot can tell.',
    ],
    back: [],
  });
});

test('a crossing in soft snow', () => {
  expect(
    said(evenly(60, { slopeDeg: 8 }), {
      snow: { hardness: 'F', wetness: 'D' },
      marks: [mark('crevasse-crossing', 150, { widthM: 3 })],
    }),
  ).toEqual({
    there: [
      '3 weak-anchor 143.5-156.5: Crossing in soft snow: an anchor of two pieces is put at 0.5 kN (median). Dig deep, or wait for the freeze.',
      '2 crossing 148.5-151.5: Crevasse crossing: whether a bridge holds, only a person on the spot can tell.',
    ],
    back: [],
  });
});

test('an anchor of four kilonewtons is enough', () => {
  expect(
    said(
      evenly(60, { slopeDeg: 8 }),
      { marks: [mark('crevasse-crossing', 150, { widthM: 3 })] },
      { figures: { ...defaultFigures, piece: { ...defaultFigures.piece, anchorFactor: 1, anchorMaxKN: 4 } } },
    ),
  ).toEqual({
    there: [
      '2 crossing 148.5-151.5: Crevasse crossing: whether a bridge holds, only a person on the spot can tell.',
    ],
    back: [],
  });
});

test('set by the guide: more than asked, less than asked, and where nothing is known', () => {
  expect(
    said([...gentle, ...running, ...evenly(20, { slopeDeg: null })], {
      party: party({ pickets: 12 }),
      overrides: [
        override('running-belay', 0, 100),
        override('roped', 400, 500),
        override('roped', 600, 680),
        override('running-belay', 320, 380),
      ],
    }),
  ).toEqual({
    there: [
      '3 override-less 400-500: Set by the guide: roped travel; the numbers ask for: running belay.',
      '3 override-less 600-680: Set by the guide: roped travel; no ground data to decide on.',
      '3 no-data 600-695: The elevation data say nothing here: slope and run-out are unknown, no mode can be given.',
    ],
    back: [],
  });
});

test('a slope whose doubt reaches a more protective mode', () => {
  expect(
    said([...evenly(60, { slopeDeg: 20, sigmaDeg: 3 }), ...evenly(60, { slopeDeg: 8, sigmaDeg: 0.1 })]),
  ).toEqual({
    there: [
      "2 slope-straddles 0-297.5: The data's slope is uncertain: 20° may be 26° (two standard deviations), where the numbers ask for: running belay.",
    ],
    back: [],
  });
});

test('two pickets: the whole team on one, time and again', () => {
  expect(said(running, { party: party({ pickets: 2 }) })).toEqual({
    there: [
      '3 one-piece 10.8-295: Whole team on one piece above a deadly run-out, 28 times: two need a rack of three or more.',
      '2 bad-gathering 10.8-291.2: 27 of 28 gatherings in bad places (deadly or unknown run-out, or no standing).',
    ],
    back: [],
  });
});

test('two pickets, once', () => {
  expect(said(evenly(3, { slopeDeg: 26 }), { party: party({ pickets: 2 }) })).toEqual({
    there: [
      '3 one-piece 10-10: Whole team on one piece above a deadly run-out, once: two need a rack of three or more.',
    ],
    back: [],
  });
});

test('two pickets above a run-out that only injures', () => {
  expect(said(evenly(60, { slopeDeg: 32, runOut: 'injuring' }), { party: party({ pickets: 2 }) })).toEqual({
    there: [],
    back: [],
  });
});

test('stances of pitches, and a rack that is short', () => {
  expect(said(evenly(40, { slopeDeg: 46 }))).toEqual({
    there: [
      '3 rack-short 0-195: A stretch needs 10 pieces at one time, the rack has 3.',
      '2 bad-gathering 34.7-168.1: 5 of 6 stances in bad places (deadly or unknown run-out, or no standing).',
    ],
    back: [],
  });
});

test('four on a running belay', () => {
  expect(said([...gentle, ...running], { onGlacier: true, party: party({ climbers: 4 }) })).toEqual({
    there: [
      '2 crevasse-falls 0-292.5: Roped travel: crevasse falls are not in these figures.',
      '2 many-on-running-belay 292.5-595: 4 on a running belay: more to pull each other off, and slow.',
      '2 bad-gathering 314.3-583.9: 26 of 27 gatherings in bad places (deadly or unknown run-out, or no standing).',
    ],
    back: [],
  });
});

test('brake knots come off and go on', () => {
  expect(
    said([...gentle, ...running, ...evenly(30, { slopeDeg: 46 }), ...gentle], {
      party: party({ pickets: 12, rope: { brakeKnots: true } }),
    }),
  ).toEqual({
    there: [
      '2 knots-off 292.5-747.5: Brake knots come off before this stretch and go on again after it: they cannot pass clipped pieces.',
      '2 bad-gathering 411.4-519.2: 2 of 3 gatherings in bad places (deadly or unknown run-out, or no standing).',
      '2 bad-gathering 630.8-730.9: 4 of 5 stances in bad places (deadly or unknown run-out, or no standing).',
    ],
    back: [],
  });
});

test('two on a glacier without brake knots; nobody is roped on steep ground alone', () => {
  expect(said(running, { onGlacier: true, party: party({ climbers: 2, pickets: 12 }) })).toEqual({
    there: [
      '3 two-people everywhere: A team of two: one slip, one to hold it. On a glacier one alone has to hold a fall into a crevasse and to haul.',
      '2 bad-gathering 107.9-215.7: 2 of 3 gatherings in bad places (deadly or unknown run-out, or no standing).',
    ],
    back: [],
  });
});

test('two off a glacier', () => {
  expect(said(gentle, { party: party({ climbers: 2 }) })).toEqual({
    there: ['3 two-people everywhere: A team of two: one slip, one to hold it.'],
    back: [],
  });
});

test('capture devices', () => {
  expect(
    said([...gentle, ...evenly(60, { slopeDeg: 37 })], { party: party({ pickets: 6, devices: 4 }) }),
  ).toEqual({
    there: [
      '2 device-limit 292.5-595: Capture devices are rated to about 4 kN: a lead fall must not come onto one. Set an ordinary piece soon after each; these extra pieces are not in the times and counts here.',
      '2 bad-gathering 331.3-561.3: 7 of 8 gatherings in bad places (deadly or unknown run-out, or no standing).',
    ],
    back: [],
  });
});

test('low-stretch cord, too short', () => {
  expect(
    said([...gentle, ...running], { party: party({ rope: { lowStretch: true, lengthM: 23.9 } }) }),
  ).toEqual({
    there: [
      '3 rope-short everywhere: The rope of 23.9 m is too short for 3 people 12 m apart (24 m).',
      '3 none-holds 297.5-595: None holds well enough: another line, other snow (wait for the freeze), or turn back.',
      '2 low-stretch everywhere: Low-stretch cord: lead falls onto pieces are barred, so neither a running belay nor leading a pitch is offered.',
    ],
    back: [],
  });
});

test('a rope just long enough', () => {
  expect(said(gentle, { party: party({ rope: { lengthM: 24 } }) })).toEqual({ there: [], back: [] });
});

test.each([
  ['running-belay', ['3 rack-short 100-200: Pieces are needed here, the rack has 1.']],
  ['pitched-belay', ['3 rack-short 100-200: A stretch needs 9 pieces at one time, the rack has 1.']],
  ['belayed-crossing', ['3 rack-short 100-200: A stretch needs 2 pieces at one time, the rack has 1.']],
  ['roped', []],
] as const)('one picket, and a stretch set to %s', (mode, there) => {
  const changes = { party: party({ pickets: 1 }), overrides: [override(mode, 100, 200)] };
  expect(said([...gentle, ...gentle], changes)).toEqual({ there, back: [] });
});

test('two pickets are enough for a stretch that is set', () => {
  expect(
    said([...gentle, ...gentle], {
      party: party({ pickets: 2 }),
      overrides: [override('running-belay', 100, 200)],
    }),
  ).toEqual({ there: [], back: [] });
});

test('back too late by the clock', () => {
  expect(said(gentle, { schedule: day({ start: '2026-01-17T05:00', backBy: '2026-01-17T05:05' }) })).toEqual({
    there: ['3 too-late 0-295: The end of the line is reached after the time to be back by.'],
    back: [],
  });
});

test('back in time by the clock', () => {
  expect(said(gentle, { schedule: day({ start: '2026-01-17T05:00', backBy: '2026-01-17T15:05' }) })).toEqual({
    there: [],
    back: [],
  });
});

test('a way back, and when to turn round', () => {
  expect(
    said([...gentle, ...running], {
      party: party({ pickets: 12 }),
      schedule: day({ start: '2026-01-17T05:00', backBy: '2026-01-17T15:05', wayBack: 'same-line' }),
    }),
  ).toEqual({
    there: [
      '2 bad-gathering 411.4-519.2: 2 of 3 gatherings in bad places (deadly or unknown run-out, or no standing).',
      '1 turn-round everywhere: Turn round by 12:42; if the way back goes slowly, by 10:50.',
    ],
    back: [
      '2 bad-gathering 107.9-215.7: 2 of 3 gatherings in bad places (deadly or unknown run-out, or no standing).',
    ],
  });
});

test('a way back that leaves no time at all, or none if it goes slowly', () => {
  const until = (backBy: string) =>
    said([...gentle, ...running], {
      party: party({ pickets: 12 }),
      schedule: day({ start: '2026-01-17T05:00', backBy, wayBack: 'same-line' }),
    }).there.filter((line) => /turn|late/.test(line));
  expect(until('2026-01-17T06:05')).toEqual([
    '3 no-turn-round everywhere: No time to turn round: the way back alone takes longer than the day has until the time to be back by.',
  ]);
  expect(until('2026-01-17T08:05')).toEqual([
    '3 too-late 292.5-595: The end of the line is reached after the latest turn-round time, 05:42.',
    '1 turn-round everywhere: Turn round by 05:42; if the way back goes slowly, there is no time at all.',
  ]);
});

test('a turn-round time of the next day says so', () => {
  const { there } = said(gentle, {
    schedule: day({ start: '2026-01-17T05:00', backBy: '2026-01-18T12:00', wayBack: 'same-line' }),
  });
  expect(there.join()).toMatch(
    /Turn round by 11:48 next day; if the way back goes slowly, by 11:44 next day\.$/,
  );
});

test('snow that changes before the team comes', () => {
  expect(
    said([...gentle, ...gentle], {
      schedule: day({
        start: '2026-01-17T05:00',
        snowChanges: [{ fromM: 300, toM: 595, at: '04:00', snow: { hardness: 'F', wetness: 'M' } }],
      }),
    }),
  ).toEqual({
    there: ['2 snow-changed 300-595: Reached after the snow has changed to fist: decided again for that.'],
    back: [],
  });
});

test('a clock that does not know the hour', () => {
  expect(said(gentle, { schedule: day({ start: '2026-03-29T02:30', zone: 'Europe/Zurich' }) })).toEqual({
    there: [
      '2 clock everywhere: No clock times: the clocks in Europe/Zurich skip this time. Choose 01:30 or 03:30 that night.',
    ],
    back: [],
  });
});

test('a way back by another line that is not there', () => {
  expect(said(gentle, { schedule: day({ wayBack: { alternativeId: 'gone' } }) })).toEqual({
    there: [
      '3 way-back everywhere: The way back by another line is not planned: there is no such line, or no ground under it.',
    ],
    back: [],
  });
});

test('a way back by another line, beginning elsewhere, where snow was painted', () => {
  expect(
    said(
      gentle,
      {
        alternatives: [otherLine],
        overrides: [override('roped', 0, 50, { mode: null, snow: { hardness: 'K', wetness: 'D' } })],
        schedule: day({ wayBack: { alternativeId: 'other' } }),
      },
      { wayBackProfile: profileOf(gentle) },
    ),
  ).toEqual({
    there: [
      '2 way-back-gap everywhere: The way back begins 295 m from the end of the line: what lies between is not planned.',
      '2 way-back-snow everywhere: Snow that is painted on parts of the way there is not known on another line: the way back is planned with the snow of the whole line, except where a stretch is set for it.',
    ],
    back: [],
  });
});

test('stretches set for a way back that nobody plans', () => {
  expect(
    said(gentle, {
      overrides: [override('pitched-belay', 0, 50, { way: 'back' }), override('roped', 100, 150)],
    }),
  ).toEqual({
    there: [
      '1 way-back-painted everywhere: Stretches are set for the way back only, and no way back is planned.',
    ],
    back: [],
  });
});

test('zeros beside high ground; a roll; surveys old, unknown and of some year', () => {
  expect(
    said(
      [
        ...evenly(20, { slopeDeg: 8, runOut: 'gentle', elevationM: 1500 }),
        ...evenly(10, { slopeDeg: 0, runOut: 'gentle', elevationM: 0 }),
        ...evenly(20, { slopeDeg: 8, runOut: 'gentle', elevationM: 1500 }),
        ...evenly(40, { slopeDeg: 8, runOut: 'gentle', elevationM: 1500, curvaturePerM: 0.004 }),
      ],
      { onGlacier: true },
      {
        years: ['2012', null, '2021', 'long ago'],
        notes: [
          { code: 'GROUND-003', subject: 'a / b', text: 'a step of 12 m' },
          { code: 'GROUND-005', subject: 'a / b', text: 'b differs from a' },
          { code: 'GROUND-001', subject: 'a', text: 'something else' },
        ],
      },
    ),
  ).toEqual({
    there: [
      '3 zeros 97.5-147.5: Elevation is exactly 0 here, beside high ground: probably a hole in the raster, filled with zeros. Modes and slopes here mean nothing.',
      '2 seam-jump everywhere: a / b: a step of 12 m.',
      '2 survey-age everywhere: raster 1: surveyed 2012, about 14 years ago; on a glacier surface and crevasses have moved.',
      '2 survey-age everywhere: raster 2: date of survey unknown; on a glacier surface and crevasses move.',
      '2 lead-down 0-97.5: Going down C goes first and is not marked as able to lead.',
      '2 crevasse-falls 0-445: Roped travel: crevasse falls are not in these figures.',
      '1 rasters-differ everywhere: b differs from a.',
      '1 survey-age everywhere: raster 4: surveyed long ago; on a glacier check how old that is.',
      '1 no-knots 0-445: No brake knots on a rope of two or three on a glacier: they help to hold a crevasse fall.',
      '1 convex-roll 247.5-445: The slope rolls over here: a hint for crevasses. Where it does not, that is no sign of none.',
    ],
    back: [],
  });
});
