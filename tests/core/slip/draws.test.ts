import { expect, test } from 'vitest';
import { defaultFigures, type Spread } from '../../../src/core/assumptions/figures';
import { defaultParty, type Rope } from '../../../src/core/domain/rope-team';
import { drawSlips } from '../../../src/core/slip/draws';
import { labelModulusN, staticModulusN } from '../../../src/core/slip/rope-forces';
import { dry } from './teams';

const { rope: ropeFigures, snow } = defaultFigures;
const draw = (climbers = 3, rope: Rope = defaultParty.rope) =>
  drawSlips(climbers, rope, dry('P'), defaultFigures, 256);

const mean = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0) / values.length;

/** A triangular spread: within its ends, reaching near both, its mean that of the textbook. */
function expectSpread(values: Float64Array, { low, mode, high }: Spread) {
  const width = high - low;
  expect(Math.min(...values)).toBeGreaterThanOrEqual(low);
  expect(Math.max(...values)).toBeLessThanOrEqual(high);
  expect(Math.min(...values)).toBeLessThan(low + 0.15 * width);
  expect(Math.max(...values)).toBeGreaterThan(high - 0.15 * width);
  expect(Math.abs(mean(values) - (low + mode + high) / 3)).toBeLessThan(0.005 * width);
}

test('everything is drawn from its spread', () => {
  const draws = draw();
  expect(draws.count).toBe(256);
  expectSpread(draws.muSliding, snow.P.muSliding);
  expectSpread(draws.muArresting, snow.P.muArresting);
  expectSpread(draws.slackM, ropeFigures.slackM);
  expectSpread(draws.belayedSlackM, ropeFigures.belayedSlackM);
  draws.reactionS.forEach((values) => expectSpread(values, ropeFigures.reactionS));
  for (const uniform of [draws.progress, ...draws.ability]) {
    expect(mean(uniform)).toBeCloseTo(0.5, 2);
    expect(Math.min(...uniform)).toBeGreaterThan(0);
    expect(Math.max(...uniform)).toBeLessThan(1);
  }
  expect(mean(draws.slope)).toBeCloseTo(0, 1);
  expect(mean(draws.slope.map((z) => z * z))).toBeCloseTo(1, 1);
});

test('each climber, and each piece, has chances of its own', () => {
  for (const climbers of [2, 3, 5]) {
    const { ability, reactionS, strengthN } = draw(climbers);
    expect([ability.length, reactionS.length]).toEqual([climbers, climbers]);
    const all = [...ability, ...reactionS, ...strengthN].map((values) => values.join());
    expect(new Set(all).size).toBe(all.length);
  }
});

test('there are pieces for a pitch of 50 m, one every 8 m and the anchor’s; for two an interval of many, more', () => {
  expect([2, 5, 6].map((climbers) => draw(climbers).strengthN.length)).toEqual([8, 8, 10]);
});

test('half of the pieces are weaker than the median', () => {
  for (const strengthN of draw().strengthN) {
    expect(strengthN.filter((n) => n < 5000).length).toBe(128);
    expect(Math.max(...strengthN)).toBe(6400);
  }
});

test('a rope is as stiff as between its slow stretch and its label, nearer the slow', () => {
  const { impactForceKN, staticElongationPct } = defaultParty.rope;
  const between = (massKg: number): Spread => {
    const ends = [
      staticModulusN(staticElongationPct),
      labelModulusN(1000 * impactForceKN, ropeFigures.testFallFactor, massKg),
    ];
    const [low, high] = [Math.min(...ends), Math.max(...ends)];
    return { low, mode: low + 0.4 * (high - low), high };
  };
  // EN 892: single ropes are tested with 80 kg, half ropes with 55 kg.
  expectSpread(draw().modulusN, between(80));
  expectSpread(draw(3, { ...defaultParty.rope, half: true }).modulusN, between(55));
  const { low, mode, high } = ropeFigures.lowStretchModulusKN;
  expectSpread(draw(3, { ...defaultParty.rope, lowStretch: true }).modulusN, {
    low: 1000 * low,
    mode: 1000 * mode,
    high: 1000 * high,
  });
});

test('luck is the same for every snow and rope: figures differ by what differs', () => {
  const [soft, hard] = (['4F', 'K'] as const).map((hardness) =>
    drawSlips(3, defaultParty.rope, dry(hardness), defaultFigures, 256),
  );
  expect(soft!.slope).toEqual(hard!.slope);
  expect(soft!.ability).toEqual(hard!.ability);
  expect(soft!.muSliding).not.toEqual(hard!.muSliding);
});
