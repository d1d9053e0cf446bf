import fc from 'fast-check';
import { expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { drawSlips, type Draws } from '../../../src/core/slip/draws';
import { ending, type Ending } from '../../../src/core/slip/one-slip';
import { slipFollower } from '../../../src/core/slip/slip-follower';
import type { Party } from '../../../src/core/domain/rope-team';
import { OneSlip } from '../../../src/core/slip/one-slip';
import { anyParty, anySlopeDeg, anySnow, anyWay, cases } from './teams';

const g = 9.80665;
const stepS = 0.001;

interface Rope {
  readonly betaRad: number;
  readonly slopeRad: number;
  readonly party: Party;
  readonly draws: Draws;
}

/**
 * Roped travel again, written another way: small steps of time, every climber with a place of their own, and a rope that is
 * tight when two places are far enough apart. Only the physics is shared with what it checks.
 */
function stepThrough(
  { betaRad, slopeRad, party, draws }: Rope,
  slipper: number,
): { end: Ending; movingJ: number; lostJ: number } {
  const { climbers, rope } = party;
  const easy = Math.min(1, Math.max(0, (25 - (slopeRad * 180) / Math.PI) / 15));
  const isBelow = (i: number, share: number) => draws.ability[i]![0]! < share + (1 - share) * easy;
  const muS = draws.muSliding[0]!;
  const muA = draws.muArresting[0]!;
  const places = climbers.map((_, i) => ({
    downM: i * rope.intervalM * Math.cos(betaRad),
    asideM: i * rope.intervalM * Math.sin(betaRad),
  }));
  const sliding = new Set([slipper]);
  const mu = (i: number, timeS: number): number => {
    const figures = defaultFigures.ability[climbers[i]!.ability];
    if (i !== slipper) return isBelow(i, figures.readyWhenPulled) ? muA : muS;
    return isBelow(i, figures.arrests) && timeS >= draws.reactionS[i]![0]! ? muA : muS;
  };
  const massOf = () => [...sliding].reduce((sum, i) => sum + climbers[i]!.massKg, 0);
  const isTight = (i: number, j: number): boolean => {
    const a = places[i]!;
    const b = places[j]!;
    return Math.hypot(a.downM - b.downM, a.asideM - b.asideM) >= rope.intervalM + draws.slackM[0]!;
  };

  let speedMS = 0;
  let lostJ = 0;
  for (let timeS = 0; ; timeS += stepS) {
    const driveN = [...sliding].reduce(
      (sum, i) => sum + climbers[i]!.massKg * g * (Math.sin(slopeRad) - mu(i, timeS) * Math.cos(slopeRad)),
      0,
    );
    if (speedMS <= 0 && driveN <= 0) {
      const end = timeS === 0 ? ending.itself : sliding.size === 1 ? ending.ownArrest : ending.mates;
      return { end, movingJ: 0, lostJ };
    }
    const settled = sliding.size === climbers.length && timeS > 3;
    if (settled && driveN > 0) return { end: ending.unheld, movingJ: 0.5 * massOf() * speedMS ** 2, lostJ };
    speedMS = Math.max(0, speedMS + (driveN / massOf()) * stepS);
    for (const i of sliding) places[i]!.downM += speedMS * stepS;

    for (const mate of [Math.min(...sliding) - 1, Math.max(...sliding) + 1]) {
      if (mate < 0 || mate >= climbers.length) continue;
      const edge = mate < slipper ? mate + 1 : mate - 1;
      if (!isTight(mate, edge)) continue;
      const beforeJ = 0.5 * massOf() * speedMS ** 2;
      const before = massOf();
      sliding.add(mate);
      speedMS *= before / massOf();
      lostJ += beforeJ - 0.5 * massOf() * speedMS ** 2;
    }
  }
}

test('following events agrees with small steps of time', () => {
  let compared = 0;
  let differ = 0;
  fc.assert(
    fc.property(
      anyParty,
      anySnow,
      fc.double({ min: 8, max: 50, noNaN: true }),
      fc.double({ min: 0, max: 90, noNaN: true }),
      fc.integer({ min: 0, max: 4 }),
      (party, snow, slopeDeg, betaDeg, from) => {
        const slipper = from % party.climbers.length;
        const draws = firstDraw(drawSlips(party.climbers.length, party.rope, snow, defaultFigures, 16), from);
        const slip = slipFollower({ party, variant: 'roped', snow }, betaDeg, defaultFigures, draws);
        slip.draw(0);
        slip.standOn(slopeDeg);
        const end = slip.follow(slipper);
        const steps = stepThrough(
          { betaRad: (betaDeg * Math.PI) / 180, slopeRad: (slopeDeg * Math.PI) / 180, party, draws },
          slipper,
        );
        compared++;
        if (end !== steps.end) differ++;
        else if (slip instanceof OneSlip && slip.lostJ > 100) {
          expect(Math.abs(slip.lostJ - steps.lostJ) / slip.lostJ).toBeLessThan(0.02);
        }
      },
    ),
    { numRuns: cases(1000) },
  );
  expect(compared).toBe(cases(1000));
  // A step may miss a rest, or an order of events, closer than itself.
  expect(differ).toBeLessThanOrEqual(cases(8));
});

function firstDraw(draws: Draws, index: number): Draws {
  const at = (values: Float64Array) => values.slice(index, index + 1);
  return {
    count: 1,
    slope: at(draws.slope),
    muSliding: at(draws.muSliding),
    muArresting: at(draws.muArresting),
    modulusN: at(draws.modulusN),
    slackM: at(draws.slackM),
    belayedSlackM: at(draws.belayedSlackM),
    progress: at(draws.progress),
    ability: draws.ability.map(at),
    reactionS: draws.reactionS.map(at),
    strengthN: draws.strengthN.map(at),
  };
}

test('energy never appears from nothing: what moves at the end is the work done less what tightening ropes took', () => {
  fc.assert(
    fc.property(anyWay, anySlopeDeg, (way, slopeDeg) => {
      if (way.variant === 'pitched') return;
      const draws = drawSlips(way.party.climbers.length, way.party.rope, way.snow, defaultFigures, 8);
      const slip = slipFollower(way, way.betaDeg, defaultFigures, draws);
      if (!(slip instanceof OneSlip)) return;
      for (let i = 0; i < draws.count; i++) {
        slip.draw(i);
        slip.standOn(slopeDeg);
        for (let slipper = 0; slipper < way.party.climbers.length; slipper++) {
          slip.follow(slipper);
          const balanceJ = slip.workJ - slip.lostJ;
          expect(slip.lostJ).toBeGreaterThanOrEqual(0);
          expect(Math.abs(balanceJ - slip.movingJ)).toBeLessThanOrEqual(0.01 * Math.abs(slip.workJ) + 1e-6);
        }
      }
    }),
    { numRuns: cases(1000) },
  );
});
