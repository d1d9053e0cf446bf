import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { defaultParty } from '../../../src/core/domain/rope-team';
import { longestPitchM, OnePitch } from '../../../src/core/slip/one-pitch';
import { ending } from '../../../src/core/slip/one-slip';
import { certain, certainDraws, figuresWithoutEase, settingOf, type Certain } from './certain';

const g = 9.80665;
const massKg = 90;
const driveN = massKg * g * (Math.sin(Math.PI / 6) - 0.1 * Math.cos(Math.PI / 6));
const acceleration = driveN / massKg;

function follow(slipper: number, given: Partial<Certain> = {}) {
  const draws = { ...certain, ...given };
  const { climbers } = settingOf(draws.climbers);
  const slip = new OnePitch(
    { climbers, pitchM: 48, betaDeg: 0, figures: figuresWithoutEase },
    certainDraws(draws),
  );
  slip.draw(0);
  slip.standOn(30);
  return { end: slip.follow(slipper), loadN: slip.loadN };
}

const tensionN = (tightM: number, ropeM: number): number =>
  driveN + Math.sqrt(driveN ** 2 + (12_000 / ropeM) * massKg * 2 * acceleration * tightM);

/** Loads worked by hand: pitch of 48 m, 30 degrees, friction 0.1, slack 1 m, modulus 12 kN, runners every 8 m. */
describe('one slip of a climber belayed from an anchor', () => {
  test('a follower hangs on the anchor after the slack', () => {
    // Half of the pitch, and a metre: 25 m of rope.
    expect(follow(1)).toEqual({ end: ending.piece, loadN: expect.closeTo(tensionN(1, 25), 6) as number });
  });

  test('the lead falls onto the last runner, which takes the load and what the belayer holds', () => {
    // 20 m up: 4 m above the runner at 16 m.
    const { end, loadN } = follow(0, { progress: 20 / 48 });
    expect(loadN).toBeCloseTo(1.6 * tensionN(2 * 4 + 1, 20), 6);
    expect(end).toBe(ending.piece);
  });

  test('below the first runner the lead falls onto the anchor', () => {
    expect(follow(0, { progress: 6 / 48 }).loadN).toBeCloseTo(tensionN(2 * 6 + 1, 6), 6);
  });

  test('runners fail one after the other, each with the longer fall; the anchor is the last', () => {
    const weak = [1e9, 100, 100];
    const { end, loadN } = follow(0, { progress: 20 / 48, strengthN: weak });
    // 12 m above the lower runner: 25 m of fall, twice the force on a runner as on the anchor.
    expect(loadN).toBeCloseTo(Math.max(1.6 * tensionN(25, 20), tensionN(41, 20)), 6);
    expect(end).toBe(ending.piece);
    expect(follow(0, { progress: 20 / 48, strengthN: [100, 100, 100] }).end).toBe(ending.unheld);
  });

  test('an anchor that fails is the end, even for one who could arrest later', () => {
    expect(follow(1, { strengthN: [100], able: [true, true], reactionS: 2 }).end).toBe(ending.unheld);
  });

  test('one who arrests before the rope is tight loads nothing', () => {
    expect(follow(0, { able: [true], reactionS: 0.5, muArresting: 1.4 })).toEqual({
      end: ending.ownArrest,
      loadN: 0,
    });
  });

  test('an anchor of two pieces bears 1.8 times one, and never more than 9 kN', () => {
    const { loadN } = follow(1);
    expect(follow(1, { strengthN: [loadN / 1.8 - 0.01] }).end).toBe(ending.unheld);
    expect(follow(1, { strengthN: [loadN / 1.8 + 0.01] }).end).toBe(ending.piece);
    const hard = { progress: 6 / 48, modulusN: 400_000 };
    expect(follow(0, hard).loadN).toBeGreaterThan(9000);
    expect(follow(0, hard).end).toBe(ending.unheld);
  });

  test('the pitch is 50 m, or what the rope leaves after ties and the climbers between', () => {
    const { rope } = defaultParty;
    expect(longestPitchM(rope, 2, defaultFigures)).toBe(50);
    expect(longestPitchM({ ...rope, lengthM: 50 }, 2, defaultFigures)).toBe(44);
    expect(longestPitchM({ ...rope, lengthM: 50 }, 4, defaultFigures)).toBe(38);
    expect(longestPitchM({ ...rope, lengthM: 5 }, 4, defaultFigures)).toBe(0);
  });
});
