import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import type { Project } from '../../../src/core/domain/project';
import { defaultParty, type Climber } from '../../../src/core/domain/rope-team';
import type { Plan } from '../../../src/core/domain/segment';
import { planWith, type PlanInput } from '../../../src/core/plan/make-plan';
import { fakeSlips } from './fake-slips';
import { evenly, placeAt, profileOf, projectOf, type Ground } from './invented';

const planOf = (
  grounds: readonly Ground[],
  changes: Partial<Project> = {},
  more: Partial<PlanInput> = {},
): Plan =>
  planWith(fakeSlips, {
    profile: profileOf(grounds),
    project: projectOf(changes),
    figures: defaultFigures,
    settling: false,
    ...more,
  });

const find = ({ warnings }: Plan, code: string) => warnings.find((warning) => warning.code === code);
const codes = ({ warnings }: Plan) => warnings.map(({ code }) => code);

const climber = (name: string, more: Partial<Climber> = {}): Climber => ({
  name,
  massKg: 80,
  ability: 'solid',
  mayLead: true,
  ...more,
});
const teamOf = (count: number) => ({
  ...defaultParty,
  climbers: Array.from({ length: count }, (_, i) => climber(`C${i}`)),
});
const rackOf = (pickets: number, captureDevices = 0) => ({
  ...defaultParty,
  rack: { pickets, captureDevices },
});
const ropeOf = (more: Partial<typeof defaultParty.rope>) => ({
  ...defaultParty,
  rope: { ...defaultParty.rope, ...more },
});

const gentle = evenly(60, { slopeDeg: 8, runOut: 'gentle' });
const running = evenly(60, { slopeDeg: 26 });

describe('warnings', () => {
  test('stand heavier first, then along the line, each with its place', () => {
    const made = planOf([...gentle, ...running, ...evenly(30, { slopeDeg: 65 })], {
      marks: [
        {
          id: 'c',
          kind: 'crevasse-crossing',
          positions: [placeAt(100)],
          widthM: 3,
          bridge: 'poor',
          seenOn: null,
          note: '',
        },
      ],
    });
    const weights = made.warnings.map(({ weight }) => weight);
    expect(weights).toEqual([...weights].sort((a, b) => b - a));
    const none = find(made, 'none-holds')!;
    expect([none.fromM, none.toM]).toEqual([597.5, 745]);
    expect(find(made, 'crossing')!.weight).toBe(3);
  });

  test('crevasse falls are not in these figures: said under every roped travel on a glacier', () => {
    const made = planOf([...gentle, ...running]);
    expect(find(made, 'crevasse-falls')).toMatchObject({ fromM: 0 });
    for (const { mode, reasons } of made.segments)
      if (mode === 'roped') expect(reasons.join(' ')).toMatch(/Crevasse falls are not in these figures/);
    expect(codes(planOf(gentle, { onGlacier: false }))).not.toContain('crevasse-falls');
  });

  test('any team of two; four or more on a running belay', () => {
    expect(codes(planOf(gentle, { party: teamOf(2) }))).toContain('two-people');
    expect(codes(planOf(gentle, { party: teamOf(3) }))).not.toContain('two-people');
    expect(codes(planOf(running, { party: teamOf(4) }))).toContain('many-on-running-belay');
    expect(codes(planOf(gentle, { party: teamOf(4) }))).not.toContain('many-on-running-belay');
    expect(codes(planOf(running, { party: teamOf(3) }))).not.toContain('many-on-running-belay');
  });

  test('a team of one has no mode at all', () => {
    expect(planOf(gentle, { party: teamOf(1) }).segments.map(({ mode }) => mode)).toEqual(['none-holds']);
  });

  test('the whole team on one piece above a deadly run-out, where the rack has no second', () => {
    expect(find(planOf(running, { party: rackOf(2) }), 'one-piece')).toMatchObject({ weight: 3 });
    expect(find(planOf(running, { party: rackOf(4) }), 'one-piece')).toBeUndefined();
  });

  test('brake knots come off before pieces are clipped and on again after, and that takes time', () => {
    const grounds = [...gentle, ...running, ...gentle];
    const made = planOf(grounds, { party: ropeOf({ brakeKnots: true }) });
    const belay = made.segments.filter(({ mode }) => mode === 'running-belay');
    expect(find(made, 'knots-off')).toMatchObject({ fromM: belay[0]!.fromM, toM: belay.at(-1)!.toM });
    const after = made.segments.find(({ fromM }) => fromM === belay.at(-1)!.toM)!;
    expect([belay[0]!.parts!.transitionS, after.parts!.transitionS]).toEqual([180, 180]);
    expect(codes(planOf(gentle, { party: ropeOf({ brakeKnots: true }) }))).not.toContain('knots-off');
  });

  test('low-stretch cord bars lead falls onto pieces: nothing that is led is offered', () => {
    const made = planOf([...gentle, ...running], { party: ropeOf({ lowStretch: true }) });
    expect(new Set(made.segments.map(({ mode }) => mode))).toEqual(new Set(['roped', 'none-holds']));
    expect(codes(made)).toContain('low-stretch');
    expect(made.segments.at(-1)!.reasons.join(' ')).toMatch(/low-stretch cord bars lead falls/);
  });

  test('one piece on the rack is none: no running belay, and the reason says so', () => {
    const made = planOf(running, { party: rackOf(1) });
    expect(made.segments.map(({ mode }) => mode)).toEqual(['none-holds']);
    expect(made.segments[0]!.reasons.join(' ')).toMatch(/rack of two or more \(it has 1\)/);
  });

  test('a pitch that needs more pieces than the rack has', () => {
    const steep = evenly(60, { slopeDeg: 46 });
    expect(find(planOf(steep), 'rack-short')!.weight).toBe(3);
    expect(codes(planOf(steep, { party: rackOf(12) }))).not.toContain('rack-short');
  });

  test('capture devices: their limit is said where they are used', () => {
    const made = planOf(evenly(60, { slopeDeg: 37 }), { party: rackOf(6, 4) });
    expect(made.segments[0]!.variant).toBe('running-capture');
    expect(find(made, 'device-limit')!.text).toMatch(/4 kN/);
  });

  test('who goes first must be able to lead, up and down', () => {
    const climbers = [climber('A'), climber('B'), climber('C', { mayLead: false })];
    const party = { ...defaultParty, climbers };
    expect(codes(planOf(running, { party }))).not.toContain('lead-down');
    const down = evenly(60, { slopeDeg: 26, down: true });
    expect(find(planOf(down, { party }), 'lead-down')!.text).toMatch(/C goes first/);
    expect(codes(planOf(down, { party, turnsRoundGoingDown: false }))).not.toContain('lead-down');
  });

  test('a slope whose uncertainty reaches a more protective mode', () => {
    expect(find(planOf(evenly(60, { slopeDeg: 20, sigmaDeg: 3 })), 'slope-straddles')!.text).toMatch(/26°/);
    expect(codes(planOf(evenly(60, { slopeDeg: 20, sigmaDeg: 0.4 })))).not.toContain('slope-straddles');
  });

  test('a convex roll on a glacier is a hint for crevasses, and its absence is not called a good sign', () => {
    const roll = evenly(30, { slopeDeg: 8, runOut: 'gentle', curvaturePerM: 0.004 });
    const made = planOf([...gentle, ...roll, ...gentle]);
    expect(find(made, 'convex-roll')!.text).toMatch(/no sign of none/);
    expect(codes(planOf(gentle))).not.toContain('convex-roll');
  });

  test('a step between two rasters, on a glacier or not', () => {
    const profile = profileOf(evenly(60, { slopeDeg: 8 }));
    const text = 'at 100 m the line passes from a to b, whose elevations differ by 12 m there';
    const notes = [{ code: 'GROUND-003', subject: 'a / b', text }];
    for (const onGlacier of [true, false]) {
      const made = planOf(evenly(60, { slopeDeg: 8 }), { onGlacier }, { profile: { ...profile, notes } });
      expect(find(made, 'seam-jump')).toMatchObject({ weight: 2, text: `a / b: ${text}.` });
    }
    expect(codes(planOf(evenly(60, { slopeDeg: 8 })))).not.toContain('seam-jump');
  });

  test('B21 a patch of exact zeros in high ground: probably a hole; the sea is none', () => {
    const zeros = (count: number, aroundM: number) => {
      const around = evenly(20, { slopeDeg: 8, runOut: 'gentle', elevationM: aroundM });
      const patch = evenly(count, { slopeDeg: 0, runOut: 'gentle', elevationM: 0 });
      return planOf([...around, ...patch, ...around]).warnings.filter(({ code }) => code === 'zeros');
    };
    expect(zeros(10, 1500)).toMatchObject([{ weight: 3, fromM: 97.5, toM: 147.5 }]);
    expect(zeros(10, 1500)[0]!.text).toMatch(/exactly 0 here, beside high ground: probably a hole/);
    expect(zeros(10, 60)).toEqual([]);
    expect(zeros(0, 1500)).toEqual([]);
    // Up to 60 m from high ground, on either side.
    const high = evenly(20, { slopeDeg: 8, runOut: 'gentle', elevationM: 1500 });
    const zero = evenly(10, { slopeDeg: 0, runOut: 'gentle', elevationM: 0 });
    for (const [between, isWarned] of [
      [8, true],
      [20, false],
    ] as const) {
      const low = evenly(between, { slopeDeg: 8, runOut: 'gentle', elevationM: 60 });
      expect(codes(planOf([...high, ...low, ...zero])).includes('zeros')).toBe(isWarned);
      expect(codes(planOf([...zero, ...low, ...high])).includes('zeros')).toBe(isWarned);
    }
    // A long way up from the sea, and no wall.
    const shore = Array.from({ length: 60 }, (_, i) => ({
      slopeDeg: 5,
      elevationM: Math.max(0, i - 20) * 4,
    }));
    expect(codes(planOf(shore))).not.toContain('zeros');
  });

  test('two rasters over one another that differ', () => {
    const profile = profileOf(evenly(60, { slopeDeg: 8 }));
    const notes = [{ code: 'GROUND-005', subject: 'a / b', text: 'b differs from a, which is used' }];
    const made = planOf(evenly(60, { slopeDeg: 8 }), {}, { profile: { ...profile, notes } });
    expect(find(made, 'rasters-differ')).toMatchObject({
      weight: 1,
      text: 'b differs from a, which is used.',
    });
    expect(codes(planOf(evenly(60, { slopeDeg: 8 })))).not.toContain('rasters-differ');
  });

  test('rolls less than twice the reach apart are one place, others are two', () => {
    const roll = evenly(30, { slopeDeg: 8, runOut: 'gentle', curvaturePerM: 0.004 });
    const rolls = (apartM: number) =>
      planOf([...roll, ...gentle.slice(0, apartM / 5), ...roll]).warnings.filter(
        ({ code }) => code === 'convex-roll',
      );
    expect(rolls(40)).toHaveLength(1);
    expect(rolls(40)[0]).toMatchObject({ fromM: 0, toM: 335 });
    expect(rolls(200)).toHaveLength(2);
  });

  test('the age of the survey, on a glacier', () => {
    const of = (surveyed: string | null, today?: string) => {
      const profile = profileOf(gentle);
      const terrain = profile.terrain.map((one) => ({ ...one, surveyed }));
      const on = today === undefined ? {} : { today };
      return find(planOf(gentle, {}, { profile: { ...profile, terrain }, ...on }), 'survey-age')?.text;
    };
    expect(of(null, '2026-01-17')).toMatch(/unknown/);
    expect(of('2012', '2026-01-17')).toMatch(/about 14 years ago/);
    expect(of('2024', '2026-01-17')).toBeUndefined();
    expect(of('2021', '2026-01-17')).toBeUndefined();
    expect(of('2020', '2026-01-17')).toMatch(/about 6 years ago/);
    expect(of('after the last thaw', '2026-01-17')).toMatch(
      /surveyed after the last thaw; on a glacier check/,
    );
    expect(of('2012', 'in the spring of 2026')).toMatch(/surveyed 2012; on a glacier check how old that is/);
    expect(of('2012')).toMatch(/surveyed 2012; on a glacier check how old that is/);
  });

  test('hundreds of one kind do not drown the rest', () => {
    const grounds = Array.from({ length: 40 }, (_, i) =>
      evenly(10, { slopeDeg: i % 2 === 0 ? 8 : 66 }),
    ).flat();
    const none = planOf(grounds).warnings.filter(({ code }) => code === 'none-holds');
    expect(none).toHaveLength(4);
    expect(none.at(-1)!.text).toMatch(/^17 more places/);
  });
});

describe('warnings that need an unusual day', () => {
  const crossingAt = (alongM: number) => ({
    id: 'c',
    kind: 'crevasse-crossing' as const,
    positions: [placeAt(alongM)],
    widthM: 3,
    bridge: 'solid' as const,
    seenOn: '2026-01-10',
    note: '',
  });

  test('an anchor for a crossing in soft or very wet snow, or on ice', () => {
    const of = (hardness: 'F' | '1F' | 'P' | 'I', wetness: 'D' | 'S') =>
      find(
        planOf(evenly(60, { slopeDeg: 8 }), { snow: { hardness, wetness }, marks: [crossingAt(150)] }),
        'weak-anchor',
      )?.text;
    expect(of('P', 'D')).toBeUndefined();
    // 1.8 × 5 kN, halved.
    expect(of('P', 'S')).toBeUndefined();
    expect(of('1F', 'S')).toMatch(/2\.7 kN/);
    expect(of('F', 'D')).toMatch(/0\.5 kN/);
    expect(of('I', 'D')).toMatch(/ice screws/);
  });

  test('a crossing says what was seen of its bridge, with or without ground data', () => {
    const text = (slopeDeg: number | null, more: object = {}) => {
      const made = planOf(evenly(60, { slopeDeg }), { marks: [{ ...crossingAt(150), ...more }] });
      return made.segments.find(({ mode }) => mode === 'belayed-crossing')!.reasons.join(' ');
    };
    expect(text(8)).toMatch(/bridge looks solid, seen 2026-01-10/);
    expect(text(8, { bridge: 'poor' })).toMatch(/bridge poor/);
    expect(text(8, { bridge: null, seenOn: null })).toMatch(/marked: one at a time/);
    expect(text(null)).toMatch(/No ground data here/);
  });

  test('a rope too short for the team; pieces where the rack has none', () => {
    expect(find(planOf(gentle, { party: ropeOf({ lengthM: 20 }) }), 'rope-short')!.text).toMatch(/24 m/);
    const override = {
      id: 'o',
      way: 'both' as const,
      fromM: 0,
      toM: 300,
      snow: null,
      runOut: null,
      note: '',
    };
    for (const mode of ['running-belay', 'pitched-belay'] as const) {
      const made = planOf(gentle, { party: rackOf(1), overrides: [{ ...override, mode }] });
      expect(find(made, 'rack-short')!.weight).toBe(3);
    }
    const one = planOf(gentle, { party: rackOf(1), overrides: [{ ...override, mode: 'running-belay' }] });
    expect(one.segments[0]).toMatchObject({ mode: 'running-belay', time: null });
  });

  test('people without a name are called by their place', () => {
    const nameless = { ...defaultParty, climbers: [0, 1, 2].map(() => climber('', { mayLead: false })) };
    expect(find(planOf(running, { party: nameless }), 'lead')!.text).toMatch(/^The first goes first/);
    const down = evenly(60, { slopeDeg: 26, down: true });
    expect(find(planOf(down, { party: nameless }), 'lead-down')!.text).toMatch(/^Going down the last goes/);
    const named = {
      ...defaultParty,
      climbers: [climber('Ada', { mayLead: false }), climber('B'), climber('C')],
    };
    expect(find(planOf(running, { party: named }), 'lead')!.text).toMatch(/^Ada goes first/);
  });

  test('two people off a glacier have no crevasse to fall into', () => {
    const text = (onGlacier: boolean) =>
      find(planOf(gentle, { party: teamOf(2), onGlacier }), 'two-people')!.text;
    expect(text(true)).toMatch(/crevasse/);
    expect(text(false)).not.toMatch(/crevasse/);
  });

  test('slopes of unknown certainty straddle nothing; the date the user gives is the survey’s', () => {
    const profile = profileOf(evenly(60, { slopeDeg: 20 }));
    const unsure = { ...profile, stations: profile.stations.map((s) => ({ ...s, slopeSigmaDeg: null })) };
    expect(codes(planOf([], {}, { profile: unsure }))).not.toContain('slope-straddles');
    const said = { fileName: profile.terrain[0]!.name, checksum: null, surveyed: '2025' };
    const made = planOf(gentle, { terrain: [said] as never }, { today: '2026-01-17' });
    expect(codes(made)).not.toContain('survey-age');
    expect(find(planOf(gentle), 'survey-age')!.text).toMatch(/unknown/);
  });
});

describe('reasons', () => {
  const reason = (grounds: readonly Ground[], changes: Partial<Project> = {}) =>
    planOf(grounds, changes).segments[0]!.reasons[0]!;

  test('from 50 degrees with no rack for a pitch nothing can be tried', () => {
    expect(reason(evenly(60, { slopeDeg: 52 }), { party: rackOf(1) })).toMatch(
      /^Nothing can be tried here: from 50° only a pitched belay is tried and pieces need a rack/,
    );
  });

  test('above a harmless run-out any share may be unheld', () => {
    expect(reason(evenly(60, { slopeDeg: 30, runOut: 'gentle' }))).toMatch(
      /above a gentle run-out all may be/,
    );
    expect(reason(evenly(60, { slopeDeg: 30, runOut: 'injuring' }))).toMatch(/above an injuring run-out 40/);
  });

  test('ice that was never tabled still says that a slip on it is not held', () => {
    const blind = { ...fakeSlips, knows: () => false };
    const made = planWith(blind, {
      profile: profileOf(evenly(60, { slopeDeg: 18 })),
      project: projectOf({ snow: { hardness: 'I', wetness: 'D' }, party: rackOf(6) }),
      figures: defaultFigures,
      settling: false,
    });
    expect(made.segments[0]).toMatchObject({ mode: 'roped' });
    expect(made.segments[0]!.reasons[0]).toMatch(/a slip on ice is not held/);
  });

  test('an override says what the numbers ask for, a crossing too', () => {
    const override = {
      id: 'o',
      way: 'both',
      fromM: 0,
      toM: 300,
      mode: 'roped',
      snow: null,
      runOut: null,
      note: '',
    } as const;
    const marks = [
      {
        id: 'c',
        kind: 'moat' as const,
        positions: [placeAt(150)],
        widthM: 300,
        bridge: null,
        seenOn: null,
        note: '',
      },
    ];
    expect(reason(evenly(60, { slopeDeg: 8 }), { overrides: [override], marks })).toMatch(
      /^Set by the guide: roped travel. The numbers ask for: belayed crossing. Moat marked/,
    );
  });
});
