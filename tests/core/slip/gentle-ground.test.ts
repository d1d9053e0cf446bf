import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import type { Draws } from '../../../src/core/slip/draws';
import { OnePitch } from '../../../src/core/slip/one-pitch';
import { ending } from '../../../src/core/slip/one-slip';
import { RopeTeamOnSlope } from '../../../src/core/slip/rope-team-on-slope';
import { certain, certainDraws, settingOf } from './certain';

/** Solid climbers: 85 of 100 arrest, 70 are ready when pulled; below 25 degrees more, over 15 degrees all. */
const figures = {
  ...defaultFigures,
  slope: { ...defaultFigures.slope, easyBelowDeg: 25, easyOverDeg: 15 },
  ability: {
    ...defaultFigures.ability,
    solid: { ...defaultFigures.ability.solid, arrests: 0.85, readyWhenPulled: 0.7 },
  },
};

/** Draws in which everybody's ability is the same. */
function drawnWith(ability: number): Draws {
  const draws = certainDraws({ ...certain, reactionS: 0.1, muArresting: 1.4 });
  return { ...draws, ability: draws.ability.map(() => Float64Array.of(ability)) };
}

describe('on gentle ground more arrest than the ability says', () => {
  // Shares worked by hand: 85 and 70, and of the rest none at 25 degrees, a fifth at 22, half at 17.5, all at 10.
  test.each([
    [25, 0.85, 0.7],
    [22, 0.88, 0.76],
    [17.5, 0.925, 0.85],
    [10, 1, 1],
    [4, 1, 1],
  ])('of a team on %d degrees', (slopeDeg, arrests, ready) => {
    const able = (ability: number) => {
      const team = new RopeTeamOnSlope({ ...settingOf(2), figures }, drawnWith(ability));
      team.draw(0);
      team.standOn(slopeDeg);
      return [team.arrests[1], team.isReady[1]];
    };
    expect(able(ready - 0.001)).toEqual([1, 1]);
    expect(able(arrests - 0.001)[0]).toBe(1);
    if (ready < 1) expect(able(ready + 0.001)[1]).toBe(0);
    if (arrests < 1) expect(able(arrests + 0.001)).toEqual([0, 0]);
  });

  test.each([
    [25, 0.85],
    [22, 0.88],
    [17.5, 0.925],
  ])('of climbers belayed from an anchor on %d degrees', (slopeDeg, arrests) => {
    const end = (ability: number) => {
      const { climbers } = settingOf(2);
      const slip = new OnePitch({ climbers, pitchM: 48, betaDeg: 0, figures }, drawnWith(ability));
      slip.draw(0);
      slip.standOn(slopeDeg);
      return slip.follow(1);
    };
    expect(end(arrests - 0.001)).toBe(ending.ownArrest);
    expect(end(arrests + 0.001)).toBe(ending.piece);
  });
});
