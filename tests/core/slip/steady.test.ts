import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cases } from '../../cases';
import { simulateShares } from '../../../src/core/slip/shares';
import { anySlopeDeg, anyWay } from './teams';

test('figures are steady: eight times as many slips change no share by more than 2 of 100', () => {
  fc.assert(
    fc.property(anyWay, anySlopeDeg, ({ slipsPerClimber: _, ...way }, slopeDeg) => {
      const usual = simulateShares({ ...way, slopeDeg });
      const many = simulateShares({ ...way, slopeDeg, slipsPerClimber: 16_384 });
      for (const key of ['itself', 'ownArrest', 'mates', 'piece', 'unheld', 'leadPulledOff'] as const) {
        expect(Math.abs(usual[key] - many[key]), key).toBeLessThanOrEqual(2);
      }
    }),
    { numRuns: cases(50) },
  );
});
