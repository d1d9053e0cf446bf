import { expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { paceStretch } from '../../../src/core/pace/stretch';
import { planWith } from '../../../src/core/plan/make-plan';
import { planStretches, rackOfPlan } from '../../../src/core/plan/plan-stretches';
import { fakeSlips } from './fake-slips';
import { evenly, profileOf, projectOf } from './invented';

const project = projectOf();
const planned = () =>
  planWith(fakeSlips, {
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
  const plan = planned();
  const again = planStretches(plan, project, defaultFigures).map(
    (input) => paceStretch(input).time?.defaultS ?? NaN,
  );
  const sumS = again.reduce((all, s) => all + s, 0);
  expect(sumS).toBeGreaterThan(0);
  // A stretch's time is shared among its segments by when borders are passed: sums differ by rounding only.
  expect(Math.abs(sumS - (plan.totals.time.defaultS - plan.totals.parts.transitionS))).toBeLessThan(1);
});

test('walked by another rule, segments of one stretch share its time by that rule', () => {
  const grounds = [...evenly(60, { slopeDeg: 4 }), ...evenly(60, { slopeDeg: 14 })];
  const walked = (walkingRule: 'munter' | 'tobler') =>
    planWith(fakeSlips, {
      profile: profileOf(grounds.map((ground) => ({ ...ground, runOut: 'gentle' }))),
      project: projectOf({ walkingRule }),
      figures: defaultFigures,
      settling: false,
    }).segments.map(({ fromM, toM, parts }) => parts!.walkingS / (toM - fromM));
  const tangent = (deg: number) => Math.tan((deg * Math.PI) / 180);
  const tobler = walked('tobler');
  expect(tobler).toHaveLength(2);
  // Tobler (1993): speed falls with exp(-3.5 |tangent + 0.05|). The border lies half-way between two stations.
  const expected = Math.exp(3.5 * (tangent(14) - tangent(4)));
  expect(tobler[1]! / tobler[0]! / expected).toBeCloseTo(1, 1);
  expect(walked('munter')[1]! / walked('munter')[0]!).not.toBeCloseTo(expected, 1);
});

test('with the rack that is carried the advice repeats the plan; more pickets never take longer', () => {
  const plan = planned();
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

test('a stretch is what is gone in one go: cut where snow, direction or crossing change, each with its own rope order', () => {
  const mixed = projectOf({
    overrides: [
      {
        id: 'a',
        way: 'both',
        fromM: 50,
        toM: 100,
        mode: null,
        snow: { hardness: 'K', wetness: 'D' },
        runOut: null,
        note: '',
      },
      {
        id: 'b',
        way: 'both',
        fromM: 100,
        toM: 150,
        mode: null,
        snow: { hardness: 'K', wetness: 'V' },
        runOut: null,
        note: '',
      },
      { id: 'c', way: 'both', fromM: 0, toM: 400, mode: null, snow: null, runOut: 'injuring', note: '' },
      { id: 'd', way: 'both', fromM: 20, toM: 30, mode: null, snow: null, runOut: 'gentle', note: '' },
    ],
  });
  const grounds = [...evenly(60, { slopeDeg: 12 }), ...evenly(60, { slopeDeg: 12, down: true })];
  const there = planWith(fakeSlips, {
    profile: profileOf(grounds),
    project: mixed,
    figures: defaultFigures,
    settling: false,
  });
  const stretches = planStretches(there, mixed, defaultFigures);
  expect(stretches.map(({ snow }) => `${snow.hardness} ${snow.wetness}`)).toEqual([
    'P D',
    'K D',
    'K V',
    'P D',
    'P D',
  ]);
  expect(stretches.map(({ party }) => party.climbers[0]!.name)).toEqual(['A', 'A', 'A', 'A', 'C']);
  const [first, , , , last] = stretches;
  expect([25, 31, 399].map((m) => first!.runOutAt!(m))).toEqual(['gentle', 'injuring', 'injuring']);
  expect(last!.runOutAt!(500)).toBe('deadly');
  const blind = { ...there, stations: there.stations.map((station) => ({ ...station, runOut: null })) };
  expect(planStretches(blind, mixed, defaultFigures)[0]!.runOutAt!(500)).toBeNull();
});
