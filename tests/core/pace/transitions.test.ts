import { expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { defaultParty } from '../../../src/core/domain/rope-team';
import { crossingEvents, crossingS } from '../../../src/core/pace/crossing';
import { transitionS, transitionSpan, type RopeState } from '../../../src/core/pace/transitions';

const { act } = defaultFigures;
const options = (brakeKnots: boolean) => ({
  party: { ...defaultParty, rope: { ...defaultParty.rope, brakeKnots } },
  figures: defaultFigures,
});

test.each<[RopeState, RopeState, boolean, number]>([
  ['roped', 'running', false, 0],
  ['roped', 'running', true, act.knots.mode],
  ['running', 'roped', true, act.knots.mode],
  ['running', 'running-capture', true, 0],
  ['roped', 'pitched', true, act.knots.mode + act.interval.mode],
  ['running', 'pitched', true, act.interval.mode],
  ['roped', 'crossing', true, 0],
  ['running', 'crossing', true, act.knots.mode],
  [null, 'running', true, 0],
  ['roped', null, true, 0],
])('from %s to %s with brake knots %s costs %d s', (from, to, knots, seconds) => {
  expect(transitionS(from, to, options(knots))).toBe(seconds);
  expect(transitionS(to, from, options(knots))).toBe(seconds);
});

test('turning round comes on top', () => {
  const turning = { ...options(true), turnsRound: true };
  expect(transitionS('roped', 'running', turning)).toBe(act.knots.mode + act.turnRound.mode);
  expect(transitionS('roped', 'roped', turning)).toBe(act.turnRound.mode);
  const { lowS, defaultS, highS } = transitionSpan('roped', 'pitched', turning);
  expect(lowS).toBeLessThan(defaultS);
  expect(defaultS).toBeLessThan(highS);
});

test('a crossing is prepared once and crossed one at a time', () => {
  const team = { lengthM: 6, climbers: 3 };
  expect(crossingS(team, defaultFigures, 'usual')).toBeCloseTo(900 + (3 * 6) / 0.15, 6);
  expect(crossingS(team, defaultFigures, 'quick')).toBeLessThan(crossingS(team, defaultFigures, 'usual'));
  expect(crossingS(team, defaultFigures, 'slow')).toBeGreaterThan(crossingS(team, defaultFigures, 'usual'));
  const events = crossingEvents(team, defaultFigures);
  expect(events.at(-1)?.toS).toBeCloseTo(crossingS(team, defaultFigures, 'usual'), 6);
  expect(events.filter(({ what }) => what === 'walk').map(({ who }) => who)).toEqual([0, 1, 2]);
});
