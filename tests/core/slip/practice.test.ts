import { describe, expect, test } from 'vitest';
import type { Variant } from '../../../src/core/domain/mode';
import type { Ability, Party } from '../../../src/core/domain/rope-team';
import type { Hardness } from '../../../src/core/domain/snow';
import { simulateShares } from '../../../src/core/slip/shares';
import { dry, teamOf } from './teams';

const good = teamOf('expert', 'solid', 'solid');

const shares = (variant: Variant, hardness: Hardness, slopeDeg: number, party: Party = good) =>
  simulateShares({ party, variant, snow: dry(hardness), slopeDeg, betaDeg: 0, allDevices: true });

/** What practice knows: common practice, no single source. */
describe('common practice', () => {
  test('in soft snow pieces hold little: a running belay there gains nothing', () => {
    for (const [hardness, slopeDeg] of [
      ['4F', 35],
      ['4F', 40],
      ['F', 40],
    ] as const) {
      const { unheld } = shares('running', hardness, slopeDeg);
      expect(unheld).toBeGreaterThan(shares('roped', hardness, slopeDeg).unheld - 2.5);
    }
  });

  test('in hard snow people cannot stop a slide, even good ones', () => {
    const { ownArrest, mates, unheld } = shares('roped', 'K', 35, teamOf('expert', 'expert', 'expert'));
    expect(ownArrest + mates).toBeLessThan(5);
    expect(unheld).toBeGreaterThan(95);
  });

  test('in hard snow pieces do hold: that is where a running belay pays', () => {
    for (const slopeDeg of [25, 30, 35]) {
      const gainedPct = shares('roped', 'K', slopeDeg).unheld - shares('running', 'K', slopeDeg).unheld;
      expect(gainedPct).toBeGreaterThan(30);
    }
    expect(shares('running', 'K', 25).piece).toBeGreaterThan(50);
  });

  test('one who cannot reliably arrest can pull a whole unprotected team down', () => {
    const withOne = shares('roped', 'P', 25, teamOf('expert', 'solid', 'unreliable'));
    expect(withOne.unheld).toBeGreaterThan(2 * shares('roped', 'P', 25).unheld);
    const [, solid, unreliable] = withOne.bySlipper;
    expect(unreliable!.unheld).toBeGreaterThan(solid!.unheld);
  });

  test('on a running belay a follower’s slip can pull the lead off; a capture device prevents that', () => {
    for (const [hardness, slopeDeg] of [
      ['P', 25],
      ['P', 30],
      ['K', 25],
    ] as const) {
      expect(shares('running', hardness, slopeDeg).leadPulledOff).toBeGreaterThan(40);
      expect(shares('running-capture', hardness, slopeDeg).leadPulledOff).toBeLessThan(10);
    }
  });

  test('a capture device does nothing for the lead’s own fall', () => {
    const leadEnds = (variant: Variant) => shares(variant, 'P', 35).bySlipper[0];
    expect(leadEnds('running-capture')).toEqual(leadEnds('running'));
  });

  test('steeper ground, where followers would pull the lead off, wants a pitch and an anchor', () => {
    const pulledOff = [20, 25, 30, 40].map((slopeDeg) => shares('running', 'P', slopeDeg).leadPulledOff);
    expect(pulledOff).toEqual(pulledOff.toSorted((a, b) => a - b));
    expect(shares('running', 'P', 40).unheld).toBeGreaterThan(40);
    expect(shares('pitched', 'P', 40).unheld).toBeLessThan(5);
  });

  test('where slips are easily arrested pieces only cost time', () => {
    for (const [hardness, slopeDeg] of [
      ['K', 15],
      ['P', 20],
      ['1F', 20],
    ] as const) {
      expect(shares('roped', hardness, slopeDeg).unheld).toBeLessThan(5);
    }
  });

  test('more good people on the rope hold more slips, more people who cannot hold fewer', () => {
    const unheld = (...members: readonly Ability[]) => shares('roped', 'P', 28, teamOf(...members)).unheld;
    expect(unheld('solid', 'solid', 'solid')).toBeLessThan(unheld('solid', 'solid'));
    expect(unheld('solid', 'unreliable', 'unreliable')).toBeGreaterThan(unheld('solid', 'unreliable'));
  });
});
