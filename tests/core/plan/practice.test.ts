import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import type { Mark } from '../../../src/core/domain/mark';
import type { Project } from '../../../src/core/domain/project';
import type { Ability } from '../../../src/core/domain/rope-team';
import { defaultParty, type Party } from '../../../src/core/domain/rope-team';
import type { Hardness } from '../../../src/core/domain/snow';
import type { RunOutClass } from '../../../src/core/domain/station';
import type { Segment } from '../../../src/core/domain/segment';
import { runRunningBelay } from '../../../src/core/pace/running-belay';
import { makePlan } from '../../../src/core/plan/make-plan';
import { segmentShares } from '../../../src/core/plan/segment-shares';
import { buildTables, type SlipTables } from '../../../src/core/slip/tables';
import { evenly, placeAt, profileOf, projectOf } from './invented';

/**
 * What practice knows (common practice, no single source), planned with the slip model itself: one test a line. Slopes are
 * well inside a mode's range, since looked-up shares may be off by a few of 100.
 */
const teamOf = (abilities: readonly Ability[], more: Partial<Party> = {}): Party => ({
  ...defaultParty,
  climbers: abilities.map((ability, i) => ({ name: 'ABC'[i]!, massKg: 90, ability, mayLead: i === 0 })),
  ...more,
});

const good = teamOf(['expert', 'solid', 'solid'], { rack: { pickets: 6, captureDevices: 0 } });
const mixed = teamOf(['expert', 'learning', 'unreliable'], { rack: { pickets: 6, captureDevices: 0 } });

const snows = (['4F', 'P', 'K'] as const).map((hardness) => ({ hardness, wetness: 'D' as const }));
const tablesOf = (party: Party): SlipTables =>
  buildTables(party, defaultFigures, snows, { quality: 'final' });
const tables = new Map([good, mixed].map((party) => [party, tablesOf(party)]));

function segmentFor(at: {
  party: Party;
  hardness: Hardness;
  slopeDeg: number;
  runOut?: RunOutClass;
  down?: boolean;
}): Segment {
  const { party, hardness, slopeDeg, runOut = 'deadly', down = false } = at;
  const plan = makePlan({
    profile: profileOf(evenly(60, { slopeDeg, runOut, down })),
    project: projectOf({ party, snow: { hardness, wetness: 'D' } }),
    figures: defaultFigures,
    tables: tables.get(party) ?? tablesOf(party),
  });
  expect(plan.segments).toHaveLength(1);
  return plan.segments[0]!;
}

describe('what practice knows (common practice)', () => {
  test('in soft snow a running belay gains nothing: it is never the answer', () => {
    for (const party of [good, mixed])
      for (const slopeDeg of [20, 25, 30, 35, 40, 45])
        expect(segmentFor({ party, hardness: '4F', slopeDeg }).mode).not.toBe('running-belay');
  });

  test('in firm snow people stop slides less and pieces hold: there a running belay pays', () => {
    const { mode, reasons } = segmentFor({ party: good, hardness: 'P', slopeDeg: 27.5 });
    expect(mode).toBe('running-belay');
    expect(reasons.join(' ')).toMatch(/of 100 modelled slips unheld; above a deadly run-out 15 may be/);
  });

  test('in hard snow it is needed on gentler ground than in soft', () => {
    expect(segmentFor({ party: good, hardness: 'K', slopeDeg: 21 }).mode).toBe('running-belay');
    expect(segmentFor({ party: good, hardness: 'P', slopeDeg: 21 }).mode).toBe('roped');
    expect(segmentFor({ party: good, hardness: '4F', slopeDeg: 21 }).mode).toBe('roped');
  });

  test('one who cannot be counted on changes what an unprotected team may walk', () => {
    expect(segmentFor({ party: good, hardness: 'P', slopeDeg: 22.5 }).mode).toBe('roped');
    expect(segmentFor({ party: mixed, hardness: 'P', slopeDeg: 22.5 }).mode).not.toBe('roped');
  });

  test('steeper ground wants a pitch and an anchor', () => {
    for (const hardness of ['P', 'K'] as const)
      expect(segmentFor({ party: good, hardness, slopeDeg: 42 }).mode).toBe('pitched-belay');
  });

  test('a capture device keeps the lead from being pulled off, and lets a running belay go further', () => {
    const party = { ...good, rack: { pickets: 6, captureDevices: 6 } };
    const withDevices = segmentFor({ party, hardness: 'P', slopeDeg: 34 });
    expect(withDevices.variant).toBe('running-capture');
    expect(segmentFor({ party: good, hardness: 'P', slopeDeg: 34 }).variant).toBe('pitched');
    const { stations } = profileOf(evenly(60, { slopeDeg: 34 }));
    const shares = segmentShares(withDevices, stations, tablesOf(party));
    expect(shares['running-capture']!.leadPulledOff).toBeLessThan(shares.running!.leadPulledOff / 3);
    const down = segmentFor({ party, hardness: 'P', slopeDeg: 34, down: true });
    expect(down.variant).not.toBe('running-capture');
  });

  test('where the run-out is harmless pieces only cost time', () => {
    expect(segmentFor({ party: mixed, hardness: 'K', slopeDeg: 35, runOut: 'gentle' }).mode).toBe('roped');
  });

  test('a running belay slows a team dramatically', () => {
    const timeOf = (slopeDeg: number) => segmentFor({ party: good, hardness: 'P', slopeDeg }).time!.defaultS;
    expect(timeOf(27.5)).toBeGreaterThan(3 * timeOf(21));
  });

  test('a piece is passed and removed while the lead places the next: overlapping acts take the longest of them', () => {
    const run = (acts: object) =>
      runRunningBelay({
        lengthM: 96,
        climbers: 3,
        intervalM: 12,
        spacingM: 12,
        pickets: 10,
        captureDevices: 0,
        speedMS: 0.2,
        acts: { placeS: 150, clipS: 20, removeS: 45, stanceS: 0, handoverS: 0, ...acts },
      });
    // Once the team is strung out a slower clip or removal costs nothing, as long as placing takes longer.
    const followersS = run({}).placementS - run({ clipS: 0, removeS: 0 }).placementS;
    expect(followersS).toBeLessThan(50);
    const { events } = run({});
    const placing = events.filter(({ what }) => what === 'place').slice(3, -1);
    for (const { fromS } of placing) {
      const meanwhile = events.filter((event) => event.fromS === fromS).map(({ what }) => what);
      expect(meanwhile).toEqual(expect.arrayContaining(['place', 'clip', 'remove']));
    }
  });

  const onEasyGround = (changes: Partial<Project>) =>
    makePlan({
      profile: profileOf(evenly(60, { slopeDeg: 6, runOut: 'gentle' })),
      project: projectOf({ party: good, ...changes }),
      figures: defaultFigures,
      tables: tables.get(good)!,
    });

  test('a doubtful crevasse crossing wants an anchor and a belay whatever the slope', () => {
    const crossing: Mark = {
      id: 'c',
      kind: 'crevasse-crossing',
      positions: [placeAt(150)],
      widthM: 3,
      bridge: 'doubtful',
      seenOn: null,
      note: '',
    };
    const { segments } = onEasyGround({ marks: [crossing] });
    const [crossed] = segments.filter(({ mode }) => mode === 'belayed-crossing');
    expect(crossed!.pieces).toHaveLength(2);
    expect(crossed!.fromM).toBeLessThan(148.5);
    expect(crossed!.toM).toBeGreaterThan(151.5);
  });

  test('brake knots cannot pass clipped pieces: they come off before a running belay, which takes time', () => {
    const knotted = { ...good, rope: { ...good.rope, brakeKnots: true } };
    const planned = (party: Party) =>
      makePlan({
        profile: profileOf([...evenly(40, { slopeDeg: 8 }), ...evenly(40, { slopeDeg: 27.5 })]),
        project: projectOf({ party }),
        figures: defaultFigures,
        tables: tables.get(good)!,
      });
    expect(planned(knotted).warnings.map(({ code }) => code)).toContain('knots-off');
    expect(planned(good).warnings.map(({ code }) => code)).not.toContain('knots-off');
    expect(planned(knotted).totals.parts.transitionS).toBe(
      planned(good).totals.parts.transitionS + defaultFigures.act.knots.mode,
    );
  });

  test('capture devices hold about 4 kN: the plan that uses them asks for an ordinary piece soon after', () => {
    const party = { ...good, rack: { pickets: 6, captureDevices: 6 } };
    const { warnings } = makePlan({
      profile: profileOf(evenly(60, { slopeDeg: 34 })),
      project: projectOf({ party }),
      figures: defaultFigures,
      tables: tablesOf(party),
    });
    expect(warnings.find(({ code }) => code === 'device-limit')!.text).toMatch(/4 kN.*ordinary piece/);
  });
});
