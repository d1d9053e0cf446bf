import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cases } from '../../cases';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { drawSlips } from '../../../src/core/slip/draws';
import { OneSlip } from '../../../src/core/slip/one-slip';
import { slipFollower } from '../../../src/core/slip/slip-follower';
import { anySlopeDeg, anyWay } from './teams';

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
