import { expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { defaultTolerance, type Tolerance } from '../../../src/core/domain/project';
import { tolerancePct } from '../../../src/core/plan/tolerance';

const may = (slopeDeg: number, tolerance: Tolerance = defaultTolerance, rule = defaultFigures.rule) =>
  tolerancePct('deadly', slopeDeg, tolerance, rule);

test('above a gentle or an injuring run-out it is what the guide says, whatever the slope', () => {
  for (const slopeDeg of [5, 18, 45]) {
    expect(tolerancePct('gentle', slopeDeg, defaultTolerance, defaultFigures.rule)).toBe(100);
    expect(tolerancePct('injuring', slopeDeg, defaultTolerance, defaultFigures.rule)).toBe(40);
  }
});

test('above a deadly one 15 of 100 from 22 degrees, rising evenly to 40 at 15 degrees', () => {
  expect([60, 22, 18.5, 15, 3].map((slopeDeg) => may(slopeDeg))).toEqual([15, 15, 27.5, 40, 40]);
});

test('a guide who allows less above an injuring run-out than above a deadly one is not eased down to it', () => {
  const odd = { gentlePct: 100, injuringPct: 10, deadlyPct: 15 };
  expect([22, 18, 10].map((slopeDeg) => may(slopeDeg, odd))).toEqual([15, 15, 15]);
});

test('without room to ease it never does', () => {
  const rule = { ...defaultFigures.rule, deadlyEasesFromDeg: 15, deadlyEasesToDeg: 15 };
  expect([10, 15, 20].map((slopeDeg) => may(slopeDeg, defaultTolerance, rule))).toEqual([15, 15, 15]);
});
