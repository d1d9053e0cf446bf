import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
import type { Draws } from '../../../src/core/slip/draws';
import { OnePitch } from '../../../src/core/slip/one-pitch';
import { ending, OneSlip, type Ending } from '../../../src/core/slip/one-slip';
import { figuresWithoutEase } from './certain';
import { followPitch, followSlip, type End, type OneChance } from './second-opinion';

/** Chance below which a solid climber arrests and is ready (0), only arrests (0.75), does neither (0.99). */
const person = fc.record({
  massKg: between(45, 125),
  u: fc.constantFrom(0, 0.75, 0.99),
  reactionS: between(0.5, 2),
});

/** Enough that every end is seen. */
const runs = Math.max(400, cases(1000));

const anySlip = fc
  .record({
    people: fc.array(person, { minLength: 2, maxLength: 5 }),
    from: fc.nat(4),
    hard: between(0, 1),
    way: fc.record({
      intervalM: between(5, 20),
      betaDeg: fc.oneof(fc.constant(0), between(0, 90)),
      goingDown: fc.boolean(),
      piecesPerInterval: fc.constantFrom(...([0, 1, 1, 1, 2, 2] as const)),
      devices: fc.constantFrom(0, 0, 0, 1, 2, 9),
    }),
    slopeDeg: between(12, 55),
    slackM: between(0.3, 2.5),
    past: between(0.02, 0.98),
    modulusN: between(9000, 30_000),
    strengthN: fc.array(fc.oneof(between(300, 6400), fc.constant(20_000)), { minLength: 10, maxLength: 10 }),
  })
  .map(({ hard, ...slip }) => ({ ...slip, muSlide: 0.45 - 0.42 * hard, muArrest: 1.3 - 1.1 * hard }));

type AnySlip = typeof anySlip extends fc.Arbitrary<infer T> ? T : never;

const ends: Readonly<Record<Ending, End>> = {
  [ending.itself]: 'itself',
  [ending.ownArrest]: 'own arrest',
  [ending.mates]: 'mates',
  [ending.piece]: 'piece',
  [ending.unheld]: 'unheld',
};

function certain({ people, way, ...slip }: AnySlip) {
  const one = (value: number) => Float64Array.of(value);
  const draws: Draws = {
    count: 1,
    slope: one(0),
    muSliding: one(slip.muSlide),
    muArresting: one(slip.muArrest),
    modulusN: one(slip.modulusN),
    slackM: one(slip.slackM),
    belayedSlackM: one(slip.slackM),
    progress: one(slip.past),
    ability: people.map(({ u }) => one(u)),
    reactionS: people.map(({ reactionS }) => one(reactionS)),
    strengthN: slip.strengthN.map(one),
  };
  const climbers = people.map(
    ({ massKg }) => ({ name: '', massKg, ability: 'solid', mayLead: true }) as const,
  );
  return { setting: { ...way, climbers, figures: figuresWithoutEase }, draws };
}

function core(slip: AnySlip) {
  const { setting, draws } = certain(slip);
  const followed = new OneSlip(setting, draws);
  followed.draw(0);
  followed.standOn(slip.slopeDeg);
  const end = ends[followed.follow(slip.from % slip.people.length)];
  const { leadPulledOff, loadN, movingJ, lostJ } = followed;
  return { end, leadPulledOff, loadN, movingJ, lostJ };
}

const chanceOf = ({ people, strengthN, ...slip }: AnySlip): OneChance => ({
  ...slip,
  climbers: people.map(({ massKg, u, reactionS }) => {
    return { massKg, reactionS, arrests: u < 0.85, ready: u < 0.7 };
  }),
  strengthN: people.slice(1).map((_, interval) => strengthN.slice(2 * interval, 2 * interval + 2)),
});

const near = (a: number, b: number, share: number, floor: number) =>
  Math.abs(a - b) <= share * Math.max(Math.abs(a), Math.abs(b)) + floor;

test('a second program, in small steps of time, sees every slip end alike: who, where, with what load and energy', () => {
  let [compared, differ] = [0, 0];
  const seen = new Map<End, number>();
  fc.assert(
    fc.property(anySlip, (slip) => {
      const one = core(slip);
      seen.set(one.end, (seen.get(one.end) ?? 0) + 1);
      compared++;
      const agrees = (stepS: number) => {
        const other = followSlip(slip.way, chanceOf(slip), slip.from % slip.people.length, stepS);
        return (
          other.end === one.end &&
          other.leadPulledOff === one.leadPulledOff &&
          near(other.loadN, one.loadN, 0.03, 50) &&
          near(other.lostJ, one.lostJ, 0.03, 30) &&
          (one.end !== 'piece' || near(other.movingJ, one.movingJ, 0.03, 30))
        );
      };
      // A coarse step may miss a rest, or the order of two events, that a fine one sees.
      if (!agrees(0.004) && !agrees(0.0004)) differ++;
    }),
    { numRuns: runs },
  );
  expect(compared).toBe(runs);
  for (const end of Object.values(ends)) expect(seen.get(end) ?? 0, end).toBeGreaterThan(0);
  expect(differ).toBeLessThanOrEqual(4);
});

test('and every slip of one who is belayed from an anchor', () => {
  let differ = 0;
  const seen = new Set<End>();
  fc.assert(
    fc.property(anySlip, between(10, 50), (slip, pitchM) => {
      const { setting, draws } = certain(slip);
      const followed = new OnePitch({ ...setting, pitchM }, draws);
      followed.draw(0);
      followed.standOn(slip.slopeDeg);
      const slipper = slip.from % slip.people.length;
      const end = ends[followed.follow(slipper)];
      if (end !== undefined) seen.add(end);
      const pitch = { pitchM, betaDeg: slip.way.betaDeg, strengthN: slip.strengthN };
      const agrees = (stepS: number) => {
        const other = followPitch(pitch, chanceOf(slip), slipper, stepS);
        return other.end === end && near(other.loadN, followed.loadN, 0.03, 50);
      };
      if (!agrees(0.004) && !agrees(0.0004)) differ++;
    }),
    { numRuns: runs },
  );
  expect([...seen].sort()).toEqual(['itself', 'own arrest', 'piece', 'unheld']);
  expect(differ).toBeLessThanOrEqual(4);
});
