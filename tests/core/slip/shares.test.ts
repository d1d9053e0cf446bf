import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { drawSlips } from '../../../src/core/slip/draws';
import { ending } from '../../../src/core/slip/one-slip';
import { simulateShares, type SlipInput } from '../../../src/core/slip/shares';
import { byHeight, slipFollower } from '../../../src/core/slip/slip-follower';
import { dry, teamOf } from './teams';

const count = 128;
const input: SlipInput = {
  party: teamOf('expert', 'learning', 'unreliable'),
  variant: 'running',
  snow: dry('P'),
  slopeDeg: 34,
  betaDeg: 20,
  slipsPerClimber: count,
};

/** One slip of one climber, highest first. */
interface Slip {
  readonly slipper: number;
  readonly end: number;
  readonly loadN: number;
  readonly pulledOff: boolean;
}

/** Every slip of the shares, one by one. */
function slipsOf(given: SlipInput, sigmaDeg: number): readonly Slip[] {
  const climbers = byHeight(given.party.climbers, given.goingDown ?? false);
  const draws = drawSlips(climbers.length, given.party.rope, given.snow, defaultFigures, count);
  const follower = slipFollower(given, given.betaDeg, defaultFigures, draws);
  return Array.from({ length: count }, (_, i) => i).flatMap((i) => {
    follower.draw(i);
    follower.standOn(Math.max(0, given.slopeDeg + sigmaDeg * draws.slope[i]!));
    return climbers.map((__, slipper) => {
      const end = follower.follow(slipper);
      return { slipper, end, loadN: follower.loadN, pulledOff: follower.leadPulledOff };
    });
  });
}

describe.each([false, true])('going down: %s', (goingDown) => {
  /** Worked out anew by every test. */
  function look() {
    const given = { ...input, goingDown };
    const slips = slipsOf(given, defaultFigures.slope.spreadDeg);
    const climbers = byHeight(given.party.climbers, goingDown);
    const weightOf = (slipper: number) => defaultFigures.ability[climbers[slipper]!.ability].slips;
    const weight = (which: (slip: Slip) => boolean) =>
      slips.filter(which).reduce((sum, { slipper }) => sum + weightOf(slipper), 0);
    return { shares: simulateShares(given), slips, weight };
  }

  test('shares are those of the slips one by one, each weighted by how often its climber slips', () => {
    const { shares, weight } = look();
    const all = weight(() => true);
    expect(shares.unheld).toBeCloseTo((100 * weight(({ end }) => end === ending.unheld)) / all, 9);
    expect(shares.piece).toBeCloseTo((100 * weight(({ end }) => end === ending.piece)) / all, 9);
    expect(shares.ownArrest).toBeCloseTo((100 * weight(({ end }) => end === ending.ownArrest)) / all, 9);
  });

  test('the one who is highest is pulled off by others only', () => {
    const { shares, weight } = look();
    const others = weight(({ slipper }) => slipper > 0);
    const pulled = weight(({ slipper, pulledOff }) => slipper > 0 && pulledOff);
    expect(pulled).toBeGreaterThan(0);
    expect(shares.leadPulledOff).toBeCloseTo((100 * pulled) / others, 9);
  });

  test('half the loads on pieces are below the median, nineteen of twenty below the 95th', () => {
    const { shares, slips, weight } = look();
    const loads = slips.filter(({ loadN }) => loadN > 0);
    const all = weight(({ loadN }) => loadN > 0);
    for (const [share, kN] of [
      [0.5, shares.pieceLoadKN!.p50],
      [0.95, shares.pieceLoadKN!.p95],
    ] as const) {
      expect(loads.some(({ loadN }) => Math.abs(loadN / 1000 - kN) < 1e-9)).toBe(true);
      const upTo = weight(({ loadN }) => loadN > 0 && loadN <= 1000 * kN + 1e-6);
      const below = weight(({ loadN }) => loadN > 0 && loadN < 1000 * kN - 1e-6);
      expect(upTo).toBeGreaterThanOrEqual(share * all);
      expect(below).toBeLessThan(share * all);
    }
  });
});

test('without pieces nothing loads one', () => {
  expect(simulateShares({ ...input, variant: 'roped' }).pieceLoadKN).toBeNull();
});

test('a slope known worse than usual spreads over more', () => {
  const given = { ...input, slopeSigmaDeg: 6 };
  const slips = slipsOf(given, 6);
  const weights = given.party.climbers.map(({ ability }) => defaultFigures.ability[ability].slips);
  const total = count * weights.reduce((sum, weight) => sum + weight, 0);
  const unheld = slips
    .filter(({ end }) => end === ending.unheld)
    .reduce((sum, { slipper }) => sum + weights[slipper]!, 0);
  expect(simulateShares(given).unheld).toBeCloseTo((100 * unheld) / total, 9);
  // One known better is no better than the model itself.
  expect(simulateShares({ ...input, slopeSigmaDeg: 0.1 })).toEqual(simulateShares(input));
});

test('nobody stands on less than level ground, however uncertain the slope', () => {
  const level = { ...input, slopeDeg: 1, slopeSigmaDeg: 8 };
  expect(simulateShares(level).unheld).toBeCloseTo(
    (100 *
      slipsOf(level, 8)
        .filter(({ end }) => end === ending.unheld)
        .reduce(
          (sum, { slipper }) => sum + defaultFigures.ability[level.party.climbers[slipper]!.ability].slips,
          0,
        )) /
      (count *
        level.party.climbers.reduce((sum, { ability }) => sum + defaultFigures.ability[ability].slips, 0)),
    9,
  );
});

test('two thousand and forty-eight slips a climber unless said otherwise, going up', () => {
  const { slipsPerClimber: _, ...usual } = input;
  expect(simulateShares(usual)).toEqual(
    simulateShares({ ...usual, slipsPerClimber: 2048, goingDown: false }),
  );
});
