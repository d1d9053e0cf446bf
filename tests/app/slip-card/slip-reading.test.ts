import { describe, expect, test } from 'vitest';
import { variantReadings, warningsAt } from '../../../src/app/slip-card/slip-reading';
import type { Decision, Plan, Segment, Warning } from '../../../src/core/domain/segment';
import type { Variant } from '../../../src/core/domain/mode';
import { madeUpPlan } from '../fixture/made-up-plan';

const plan = madeUpPlan();
const segment = plan.segments.find(({ mode }) => mode === 'running-belay')!;
const shares = segment.shares.roped!;

describe('what the card says of a technique', () => {
  const decided = (unheldPct: Decision['unheldPct'], allowed: readonly Variant[]): Plan => ({
    ...plan,
    decisions: plan.decisions.map((decision) => ({ ...decision, unheldPct, allowed })),
  });
  const at = { ...segment.decidedAt, tolerancePct: 15 };
  const simulated = (unheld: number): Segment => ({
    ...segment,
    decidedAt: at,
    shares: { roped: { ...shares, unheld } },
  });
  const allowed = (of: Plan, unheld: number) => variantReadings(of, simulated(unheld))[0]!.isAllowed;

  test('is judged by the share the plan was made with, not by the one simulated anew', () => {
    expect(allowed(decided({ roped: 14.6 }, ['roped']), 15.8)).toBe(true);
    expect(allowed(decided({ roped: 15.4 }, []), 14.2)).toBe(false);
  });

  test('that a floor lets stand is not called too many', () => {
    expect(allowed(decided({ roped: 30 }, ['roped']), 30)).toBe(true);
  });

  test('that was never looked up is judged by its own share; nothing is judged without a tolerance', () => {
    expect(allowed(decided({}, []), 14)).toBe(true);
    expect(allowed(decided({}, []), 16)).toBe(false);
    const noLimit = { ...simulated(16), decidedAt: { ...at, tolerancePct: null } };
    expect(variantReadings(plan, noLimit)[0]!.isAllowed).toBeNull();
  });
});

describe('warnings on a card', () => {
  const warning = (code: string, more: Partial<Warning> = {}): Warning => ({
    code,
    weight: 2,
    text: code,
    fromM: 0,
    toM: 1e6,
    ...more,
  });
  const codes = (warnings: readonly Warning[], of: Segment = segment) =>
    warningsAt({ warnings }, of).map(({ code }) => code);

  test('are the graver ones that reach the segment', () => {
    expect(
      codes([warning('a'), warning('b', { weight: 1 }), warning('c', { fromM: null, toM: null })]),
    ).toEqual(['a']);
    expect(codes([warning('a', { fromM: segment.toM, toM: segment.toM + 5 })])).toEqual([]);
    expect(codes([warning('a', { fromM: segment.fromM + 1, toM: null })])).toEqual(['a']);
  });

  test('and are about its technique', () => {
    const said = [warning('crevasse-falls'), warning('device-limit'), warning('many-on-running-belay')];
    expect(codes(said, { ...segment, variant: 'running' })).toEqual(['many-on-running-belay']);
    expect(codes(said, { ...segment, variant: 'running-capture' })).toEqual([
      'device-limit',
      'many-on-running-belay',
    ]);
    expect(codes(said, { ...segment, mode: 'roped', variant: 'roped' })).toEqual([]);
  });
});
