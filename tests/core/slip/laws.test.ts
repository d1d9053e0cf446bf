import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { simulateShares } from '../../../src/core/slip/shares';
import { anyParty, anySlopeDeg, anySnow, anyWay, unbreakable, withStrength } from './teams';

const runs = { numRuns: cases(1000) };

/** Sampling may be off by this much of 100. */
const samplingPct = 2.5;

test('a steeper slope never leaves fewer slips unheld', () => {
  fc.assert(
    fc.property(anyWay, anySlopeDeg, between(0, 12), (way, slopeDeg, moreDeg) => {
      const { unheld } = simulateShares({ ...way, slopeDeg });
      const steeper = simulateShares({ ...way, slopeDeg: slopeDeg + moreDeg });
      return steeper.unheld >= unheld - samplingPct;
    }),
    runs,
  );
});

test('a weaker piece never leaves fewer slips unheld', () => {
  fc.assert(
    fc.property(anyWay, anySlopeDeg, between(0.02, 1), (way, slopeDeg, factor) => {
      const { unheld } = simulateShares({ ...way, slopeDeg });
      const figures = withStrength(defaultFigures, factor);
      return simulateShares({ ...way, slopeDeg, figures }).unheld >= unheld - samplingPct;
    }),
    runs,
  );
});

test('pieces, devices and anchors that nothing breaks leave no follower’s slip unheld', () => {
  fc.assert(
    fc.property(
      anyWay.filter(({ variant }) => variant !== 'roped'),
      anySlopeDeg,
      (way, slopeDeg) => {
        const { bySlipper } = simulateShares({ ...way, slopeDeg, figures: unbreakable, allDevices: true });
        const highest = way.goingDown ? bySlipper.length - 1 : 0;
        return bySlipper.every(({ unheld }, i) => i === highest || unheld === 0);
      },
    ),
    runs,
  );
});

test('where there is no piece, a running belay is roped travel', () => {
  const figures = withStrength(defaultFigures, 0);
  fc.assert(
    fc.property(
      anyWay.filter(({ variant }) => variant.startsWith('running')),
      anySlopeDeg,
      (way, slopeDeg) => {
        const running = simulateShares({ ...way, slopeDeg, figures });
        expect(running).toEqual(simulateShares({ ...way, slopeDeg, figures, variant: 'roped' }));
      },
    ),
    runs,
  );
});

test('where friction outweighs the slope nobody slides', () => {
  const level = { ...defaultFigures, slope: { ...defaultFigures.slope, spreadDeg: 0 } };
  fc.assert(
    fc.property(anyWay, between(0, 0.999), (way, share) => {
      const least = level.snow[way.snow.hardness].muSliding.low;
      const slopeDeg = (Math.atan(share * least) * 180) / Math.PI;
      return simulateShares({ ...way, slopeDeg, figures: level }).itself === 100;
    }),
    runs,
  );
});

test('roped travel going down is roped travel up with the order reversed', () => {
  fc.assert(
    fc.property(anyWay, anySlopeDeg, (way, slopeDeg) => {
      const roped = { ...way, variant: 'roped', slopeDeg } as const;
      const party = { ...way.party, climbers: way.party.climbers.toReversed() };
      const down = simulateShares({ ...roped, goingDown: true });
      const up = simulateShares({ ...roped, party, goingDown: false });
      expect({ ...down, bySlipper: down.bySlipper.toReversed() }).toEqual(up);
    }),
    runs,
  );
});

test('shares sum to 100, for all and for each slipper', () => {
  fc.assert(
    fc.property(anyWay, anySlopeDeg, (way, slopeDeg) => {
      const shares = simulateShares({ ...way, slopeDeg });
      for (const { itself, ownArrest, mates, piece, unheld } of [shares, ...shares.bySlipper]) {
        expect(itself + ownArrest + mates + piece + unheld).toBeCloseTo(100, 9);
        expect(Math.min(itself, ownArrest, mates, piece, unheld)).toBeGreaterThanOrEqual(0);
      }
      expect(shares.leadPulledOff).toBeGreaterThanOrEqual(0);
      expect(shares.leadPulledOff).toBeLessThanOrEqual(100);
    }),
    runs,
  );
});

test('a line is the same from either side of the fall line, up and down it', () => {
  fc.assert(
    fc.property(anyWay, anySlopeDeg, (way, slopeDeg) => {
      const shares = simulateShares({ ...way, slopeDeg });
      expect(simulateShares({ ...way, slopeDeg, betaDeg: 180 - way.betaDeg }).unheld).toBeCloseTo(
        shares.unheld,
        0,
      );
    }),
    { numRuns: cases(100) },
  );
});

test('the same input gives the same figures', () => {
  fc.assert(
    fc.property(anyParty, anySnow, anySlopeDeg, (party, snow, slopeDeg) => {
      const input = { party, snow, slopeDeg, betaDeg: 20, variant: 'running', slipsPerClimber: 64 } as const;
      expect(simulateShares(structuredClone(input))).toEqual(simulateShares(input));
    }),
    { numRuns: cases(100) },
  );
});
