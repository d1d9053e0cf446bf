import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import type { Ability } from '../../../src/core/domain/rope-team';
import { defaultParty, type Party } from '../../../src/core/domain/rope-team';
import type { Hardness } from '../../../src/core/domain/snow';
import type { RunOutClass } from '../../../src/core/domain/station';
import type { Segment } from '../../../src/core/domain/segment';
import { makePlan } from '../../../src/core/plan/make-plan';
import { segmentShares } from '../../../src/core/plan/segment-shares';
import { buildTables, type SlipTables } from '../../../src/core/slip/tables';
import { evenly, profileOf, projectOf } from './invented';

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
});
