import { expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { paceStretch } from '../../../src/core/pace/stretch';
import { planWith } from '../../../src/core/plan/make-plan';
import { planStretches, rackOfPlan } from '../../../src/core/plan/plan-stretches';
import { fakeSlips } from './fake-slips';
import { evenly, profileOf, projectOf } from './invented';

const project = projectOf();
const plan = planWith(fakeSlips, {
  profile: profileOf([
    ...evenly(60, { slopeDeg: 12 }),
    ...evenly(40, { slopeDeg: 28 }),
    ...evenly(40, { slopeDeg: 33 }),
    ...evenly(60, { slopeDeg: 45 }),
  ]),
  project,
  figures: defaultFigures,
  settling: false,
});

test('paced again the plan takes as long as it says, changes between modes apart', () => {
  const again = planStretches(plan, project, defaultFigures).map(
    (input) => paceStretch(input).time?.defaultS ?? NaN,
  );
  const sumS = again.reduce((all, s) => all + s, 0);
  expect(sumS).toBeGreaterThan(0);
  // A stretch's time is shared among its segments by when borders are passed: sums differ by rounding only.
  expect(Math.abs(sumS - (plan.totals.time.defaultS - plan.totals.parts.transitionS))).toBeLessThan(1);
});

test('with the rack that is carried the advice repeats the plan; more pickets never take longer', () => {
  const advice = rackOfPlan(plan, project, defaultFigures);
  const carried = advice.rows.find(({ pickets }) => pickets === project.party.rack.pickets);
  const running = plan.segments.filter(({ mode }) => mode === 'running-belay');
  const plannedS = running.reduce(
    (all, s) => all + (s.time?.defaultS ?? NaN) - (s.parts?.transitionS ?? NaN),
    0,
  );
  expect(Math.abs((carried?.timeS ?? NaN) - plannedS)).toBeLessThan(1);
  expect(carried?.gatherings).toBe(running.reduce((all, s) => all + s.gatherings.length, 0));
  const times = advice.rows.map(({ timeS }) => timeS ?? Infinity);
  expect(times.at(-1)).toBeLessThan(times[0] ?? 0);
});
