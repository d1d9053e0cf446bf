import { describe, expect, test } from 'vitest';
import { ending, OneSlip } from '../../../src/core/slip/one-slip';
import type { SlipSetting } from '../../../src/core/slip/rope-team-on-slope';
import { certain, certainDraws, settingOf, type Certain } from './certain';

const g = 9.80665;
const massKg = 90;
const intervalM = 12;
const stiffness = 12_000 / intervalM;

/** Drive of one who slides or arrests on 30 degrees, N. */
const driveN = (mu = 0.1): number => massKg * g * (Math.sin(Math.PI / 6) - mu * Math.cos(Math.PI / 6));
const acceleration = driveN() / massKg;

function follow(slipper: number, given: Partial<Certain> = {}, more: Partial<SlipSetting> = {}) {
  const draws = { ...certain, ...given };
  const slip = new OneSlip(settingOf(draws.climbers, more), certainDraws(draws));
  slip.draw(0);
  slip.standOn(30);
  return { end: slip.follow(slipper), slip };
}

/** Each load is worked by hand, step by step, from the published force equations. */
describe('one slip without chance, 30 degrees, friction 0.1, slack 1 m', () => {
  test('friction that outweighs the slope: the slip ends by itself', () => {
    expect(follow(0, { muSliding: 0.6 }).end).toBe(ending.itself);
  });

  test('an able slipper arrests where the rope is long enough', () => {
    const above = { able: [true, false], reactionS: 0.5 };
    // 0.507 m and 2.03 m/s at 0.5 s; then 1.89 m/s² of braking: 1.09 m more.
    expect(follow(0, above, { piecesPerInterval: 0 }).end).toBe(ending.ownArrest);
    expect(
      follow(1, { able: [false, true], reactionS: 0.5 }, { piecesPerInterval: 0 }).slip.leadPulledOff,
    ).toBe(true);
  });

  test('two who cannot stop share the momentum and go', () => {
    const { end, slip } = follow(1, {}, { piecesPerInterval: 0 });
    expect(end).toBe(ending.unheld);
    // Half of the energy gained over 1 m of slack is lost when equal masses become one.
    expect(slip.lostJ).toBeCloseTo((driveN() * 1) / 2, 9);
    expect(slip.leadPulledOff).toBe(true);
  });

  test('a mate who is ready stops both', () => {
    const soft = { able: [true, false], muArresting: 1.4 };
    expect(follow(1, soft, { piecesPerInterval: 0 }).end).toBe(ending.mates);
    // At 0.8 two weights of 30 degrees pull more than one axe holds.
    expect(follow(1, { able: [true, false] }, { piecesPerInterval: 0 }).end).toBe(ending.unheld);
  });

  test('a slipper above falls twice the interval and the slack before the mate below feels it', () => {
    const { slip } = follow(0, {}, { piecesPerInterval: 0 });
    expect(slip.lostJ).toBeCloseTo((driveN() * 25) / 2, 9);
  });

  test('a follower pulls the mate down to the piece, where both hang', () => {
    const { end, slip } = follow(1);
    const sharedSquared = (2 * acceleration * 1) / 4;
    const speedSquared = sharedSquared + 2 * acceleration * 6;
    const bothN = 2 * driveN();
    const loadN = bothN + Math.sqrt(bothN ** 2 + 4 * stiffness * 2 * massKg * speedSquared);
    expect(slip.loadN).toBeCloseTo(loadN, 6);
    expect(end).toBe(ending.piece);
    expect(follow(1, { strengthN: [loadN - 0.01] }).end).toBe(ending.unheld);
    expect(follow(1, { strengthN: [loadN + 0.01] }).end).toBe(ending.piece);
  });

  test('a device stops the follower at once, with the rope to its piece, and the mate feels nothing', () => {
    const { end, slip } = follow(1, {}, { devices: 1 });
    const loadN = driveN() + Math.sqrt(driveN() ** 2 + (12_000 / 6) * massKg * 2 * acceleration);
    expect(slip.loadN).toBeCloseTo(loadN, 6);
    expect(end).toBe(ending.piece);
    expect(slip.leadPulledOff).toBe(false);
  });

  test('a device right at the climber has at least one metre of rope', () => {
    const { slip } = follow(1, { progress: 0.99 }, { devices: 1 });
    const loadN = driveN() + Math.sqrt(driveN() ** 2 + 12_000 * massKg * 2 * acceleration);
    expect(slip.loadN).toBeCloseTo(loadN, 6);
  });

  test('a device whose piece fails leaves the mate to be pulled off', () => {
    const { end, slip } = follow(1, { strengthN: [1000] }, { devices: 1 });
    expect(slip.leadPulledOff).toBe(true);
    expect(end).toBe(ending.unheld);
  });

  test('a lead fall: the mate is the counterweight, the piece takes both legs', () => {
    const { slip } = follow(0);
    const speedSquared = 2 * acceleration * (2 * 6 + 1);
    const ratio = 0.6;
    const holdsN = massKg * g * (Math.sin(Math.PI / 6) + 0.3 * Math.cos(Math.PI / 6));
    const yieldM = holdsN / ratio / stiffness;
    const leftSquared = speedSquared + (2 / massKg) * (driveN() * yieldM - (stiffness * yieldM ** 2) / 2);
    const omegaSquared = (stiffness / massKg) * (1 + ratio);
    const restM = (driveN() + holdsN) / massKg / omegaSquared;
    const tensionN = stiffness * (restM + Math.sqrt((yieldM - restM) ** 2 + leftSquared / omegaSquared));
    const fixedN = driveN() + Math.sqrt(driveN() ** 2 + stiffness * massKg * speedSquared);
    expect(slip.loadN).toBeCloseTo(1.6 * Math.min(tensionN, fixedN), 6);
    expect(slip.leadPulledOff).toBe(false);
  });

  test('a mate who is ready holds more, so the piece takes more', () => {
    expect(follow(0, { able: [false, true] }).slip.loadN).toBeGreaterThan(follow(0).slip.loadN);
  });

  test('a piece that fails takes no speed away: the next one gets the longer fall', () => {
    const double = { piecesPerInterval: 2 } as const;
    const first = follow(0, {}, double).slip.loadN;
    const second = follow(0, { strengthN: [100] }, double);
    expect(second.slip.loadN).toBeGreaterThan(first);
    expect(second.end).toBe(ending.piece);
    expect(follow(0, { strengthN: [100, 100] }, double).end).toBe(ending.unheld);
  });

  test('while a mate is pulled onto a piece nobody else is pulled in; after it fails the lead is', () => {
    const three = { climbers: 3, able: [true, false, false] };
    expect(follow(2, three).slip.leadPulledOff).toBe(false);
    expect(follow(2, three).end).toBe(ending.piece);
    const failed = follow(2, { ...three, strengthN: [1e9, 1e9, 100] });
    expect(failed.slip.leadPulledOff).toBe(true);
  });

  test('going down the lead is lowest and the pieces are counted from there', () => {
    const quarter = { progress: 0.25 };
    const up = follow(0, quarter).slip.loadN;
    const down = follow(0, quarter, { goingDown: true }).slip.loadN;
    // 3 m above the piece going up, 9 m going down: the longer fall.
    expect(down).toBeGreaterThan(up);
    expect(follow(0, { progress: 0.75 }, { goingDown: true }).slip.loadN).toBeCloseTo(up, 9);
  });

  test('across the slope both neighbours are pulled to the piece, and a device helps on one side only', () => {
    const across = { betaDeg: 90 };
    expect(follow(0, {}, across).slip.loadN).toBeCloseTo(follow(1, {}, across).slip.loadN, 6);
    const device = { ...across, devices: 1 };
    expect(follow(1, {}, device).slip.leadPulledOff).toBe(false);
    expect(follow(0, {}, device).slip.loadN).toBeCloseTo(follow(0, {}, across).slip.loadN, 9);
  });

  test('across the slope the slack rope lets one swing: √((L + s)² − L²)', () => {
    const { slip } = follow(1, {}, { betaDeg: 90, piecesPerInterval: 0 });
    expect(slip.lostJ).toBeCloseTo((driveN() * Math.sqrt(13 ** 2 - 12 ** 2)) / 2, 9);
  });
});

/**
 * Moments and speeds by hand: uniform acceleration between events, momentum shared where a rope tightens. All weigh the same
 * and slide alike, so those who slide have one acceleration however many they are; it changes when the slipper brakes.
 */
describe('when the slipper brakes', () => {
  const brakingN = driveN(0.8) - driveN(0.1);
  const three = { climbers: 3, able: [false, true, false] };
  /** Above at 1 m; below at twice the interval and the slack. */
  const aboveM = 1;
  const belowM = 25;

  /** What the rope to the one below takes away, J, when the one in the middle slips and brakes after `reactionS`. */
  function lostBelowJ(reactionS: number): number {
    const meetsS = Math.sqrt((2 * aboveM) / acceleration);
    const brakesAlone = reactionS < meetsS;
    if (brakesAlone) throw new RangeError('by hand only for later');
    let speedMS = (acceleration * meetsS) / 2;
    const waitS = reactionS - meetsS;
    const waitedM = (speedMS + (acceleration * waitS) / 2) * waitS;
    const leftM = belowM - aboveM;
    if (waitedM < leftM) {
      speedMS += acceleration * waitS;
      const slower = (2 * driveN() + brakingN) / (2 * massKg);
      speedMS = Math.sqrt(speedMS ** 2 + 2 * slower * (leftM - waitedM));
    } else {
      speedMS = Math.sqrt(speedMS ** 2 + 2 * acceleration * leftM);
    }
    return (0.5 * 2 * massKg * massKg * speedMS ** 2) / (3 * massKg);
  }

  const lostAboveJ = (driveN() * aboveM) / 2;

  test.each([0.75, 1.3, 2, 2.9, 9])('%s s after the slip: speed at the next rope', (reactionS) => {
    const { slip } = follow(1, { ...three, reactionS }, { piecesPerInterval: 0 });
    expect(slip.lostJ).toBeCloseTo(lostAboveJ + lostBelowJ(reactionS), 6);
  });

  test('the reaction time has passed as well while a mate is dragged to a piece that breaks', () => {
    // The lowest slips; the one above is pulled in after 1 m, is dragged 6 m to a piece, which breaks; the highest is pulled in.
    const given = { climbers: 3, able: [false, false, true], strengthN: [1e9, 1e9, 100] };
    const meetsS = Math.sqrt((2 * aboveM) / acceleration);
    const sharedMS = (acceleration * meetsS) / 2;
    const atPieceMS = Math.sqrt(sharedMS ** 2 + 2 * acceleration * 6);
    const atPieceS = meetsS + (atPieceMS - sharedMS) / acceleration;
    const until = (reactionS: number) => {
      const { slip } = follow(2, { ...given, reactionS });
      return slip.lostJ - (driveN() * aboveM) / 2;
    };
    // The next rope above is tight where its climber has come 1 m lower: already when the piece is reached.
    const lostJ = (speedMS: number) => (0.5 * 2 * massKg * massKg * speedMS ** 2) / (3 * massKg);
    expect(until(atPieceS + 5)).toBeCloseTo(lostJ(atPieceMS), 6);
    expect(until(atPieceS - 0.01)).toBeCloseTo(lostJ(atPieceMS), 6);
  });

  test('with no rope left to tighten the axe alone stops the slide, or nothing does', () => {
    const given = { able: [false, true], reactionS: 4 };
    const gone = follow(1, given, { piecesPerInterval: 0 });
    expect(2 * driveN() + brakingN).toBeGreaterThan(0);
    expect(gone.end).toBe(ending.unheld);
    const stopped = follow(1, { ...given, muArresting: 1.4 }, { piecesPerInterval: 0 });
    expect(driveN() + driveN(1.4)).toBeLessThan(0);
    expect(stopped.end).toBe(ending.mates);
    expect(stopped.slip.movingJ).toBe(0);
    expect(stopped.slip.workJ).toBeCloseTo(stopped.slip.lostJ, 6);
  });
});
