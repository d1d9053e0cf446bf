import { expect, test } from 'vitest';
import { timeAxis } from '../../../src/core/sheet/along-axis';
import { alongAt, paceKnots, secondsAt } from '../../../src/core/sheet/pace-axis';
import { madeUpPlan } from '../../app/fixture/made-up-plan';

const plan = madeUpPlan();
const knots = paceKnots(plan.segments);

test('time ends where the first stretch has none', () => {
  expect(knots.at(-1)?.alongM).toBe(1530);
  expect(secondsAt(knots, 1600)).toBeNull();
});

test('there and back is the same place', () => {
  for (const alongM of [0, 100, 630, 1000, 1399, 1530]) {
    expect(alongAt(knots, secondsAt(knots, alongM) ?? NaN)).toBeCloseTo(alongM, 6);
  }
});

test('the hours axis shows clock times of the mountain', () => {
  const axis = timeAxis(plan, [0, 1900], { leftPx: 0, rightPx: 600 });
  expect(axis.shown[1]).toBe(1530);
  expect(axis.ticks[0]?.label).toBe('04:30');
  expect(axis.x.toPx(0)).toBe(0);
  expect(axis.x.toPx(1530)).toBeCloseTo(600, 6);
});
