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

  test('the age of the survey, on a glacier', () => {
    const of = (surveyed: string | null, today: string) => {
      const profile = profileOf(gentle);
      const terrain = profile.terrain.map((one) => ({ ...one, surveyed }));
      return find(planOf(gentle, {}, { profile: { ...profile, terrain }, today }), 'survey-age')?.text;
    };
    expect(of(null, '2026-01-17')).toMatch(/unknown/);
    expect(of('2012', '2026-01-17')).toMatch(/about 14 years ago/);
    expect(of('2024', '2026-01-17')).toBeUndefined();
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
