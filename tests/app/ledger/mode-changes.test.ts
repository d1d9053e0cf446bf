import { expect, test } from 'vitest';
import { modeChanges } from '../../../src/app/ledger/mode-changes';
import type { Plan, Segment } from '../../../src/core/domain/segment';
import { madeUpPlan } from '../fixture/made-up-plan';

const plan = madeUpPlan();
const withModes = (change: (segment: Segment) => Segment): Plan => ({
  ...plan,
  segments: plan.segments.map(change),
});

test('the same plan differs nowhere', () => {
  expect(modeChanges(plan, plan)).toEqual([]);
});

test('stretches that touch and change alike are one, whatever their borders are', () => {
  const merged = {
    ...plan,
    segments: plan.segments.flatMap((segment): Segment[] => {
      if (segment.id === 4) return [{ ...segment, mode: 'pitched-belay', toM: 1300 }];
      if (segment.id === 5) return [{ ...segment, mode: 'pitched-belay', fromM: 1300 }];
      return [segment];
    }),
  };
  expect(modeChanges(plan, merged)).toEqual([
    { fromM: 980, toM: 1400, was: 'running-belay', is: 'pitched-belay' },
  ]);
});

test('another line is not compared place by place', () => {
  const other = { ...withModes((s) => s), totals: { ...plan.totals, lengthM: 2400 } };
  expect(modeChanges(plan, other)).toBeNull();
});
