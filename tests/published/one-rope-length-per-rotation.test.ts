import { expect, test } from 'vitest';
import { runRunningBelay } from '../../src/core/pace/running-belay';

/**
 * Common practice, no single source: where each climber brings one picket and the lead takes them all, the team gathers about
 * every rope length, that is the rope between first and last.
 */
test.each([2, 3, 4, 5, 6])(
  '%i climbers with a picket each go one rope length before they gather',
  (climbers) => {
    for (const intervalM of [8, 10, 12, 15, 20]) {
      const ropeM = (climbers - 1) * intervalM;
      const { gatheringsAtM } = runRunningBelay({
        lengthM: 5 * ropeM,
        climbers,
        intervalM,
        spacingM: intervalM,
        pickets: climbers,
        captureDevices: 0,
        speedMS: 0.2,
        acts: { placeS: 150, clipS: 20, removeS: 45, stanceS: 120, handoverS: 120 },
      });
      expect(gatheringsAtM).toEqual([1, 2, 3, 4, 5].map((rotation) => rotation * ropeM));
    }
  },
);
