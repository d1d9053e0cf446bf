import { expect, test } from 'vitest';
import { lineFacts } from '../../src/app/ledger/line-facts';
import { noneText } from '../../src/core/wording/numbers';
import { madeUpPlan } from './fixture/made-up-plan';

test('facts of two lines stand in their order; what neither has is left out', () => {
  const plan = madeUpPlan();
  const longer = {
    ...plan,
    totals: { ...plan.totals, lengthM: plan.totals.lengthM + 1000, crossings: 0, pitches: 0 },
  };
  const bare = { ...longer, totals: { ...longer.totals, pieces: 0 } };
  const facts = lineFacts([longer, bare], 'metric');
  const of = (label: string) => facts.find((fact) => fact.label === label)?.texts;
  expect(of('length')?.[0]).toBe(of('length')?.[1]);
  expect(of('pieces placed')).toEqual([String(plan.totals.pieces), noneText]);
  expect(of('crossings')).toBeUndefined();
});
