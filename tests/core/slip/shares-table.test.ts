import { describe, expect, test } from 'vitest';
import type { Ability } from '../../../src/core/domain/rope-team';
import type { Hardness } from '../../../src/core/domain/snow';
import { simulateShares } from '../../../src/core/slip/shares';
import { dry, teamOf } from './teams';

/**
 * Shares worked out once by a separate program from the same model: all 90 kg, 60 m rope, 12 m interval, straight up, slope
 * spread 1.5 degrees, rope modulus 9.81 to 24.08 kN, a device on every piece in `capture`. Tolerance: 5 of 100.
 */
interface Row {
  readonly hardness: Hardness;
  readonly slopeDeg: number;
  readonly roped: number;
  readonly running: number;
  readonly leadPulledOff: number;
  readonly capture: number;
  readonly leadPulledOffCapture: number;
  readonly pitched: number;
}

const row = (hardness: Hardness, slopeDeg: number, ...figures: readonly number[]): Row => {
  const [roped, running, leadPulledOff, capture, leadPulledOffCapture, pitched] = figures;
  return { hardness, slopeDeg, roped, running, leadPulledOff, capture, leadPulledOffCapture, pitched } as Row;
};

const solidTeam = [
  row('K', 15, 3, 0, 43, 0, 0, 0),
  row('P', 20, 3, 1, 44, 0, 1, 0),
  row('4F', 35, 13, 14, 77, 10, 49, 8),
  row('1F', 30, 13, 8, 65, 2, 7, 0),
  row('P', 25, 15, 6, 60, 1, 2, 0),
  row('P', 30, 38, 18, 72, 2, 6, 0),
  row('P', 40, 94, 59, 88, 14, 15, 0),
  row('K', 25, 68, 21, 70, 2, 4, 0),
  row('K', 35, 100, 57, 86, 13, 13, 0),
];

const mixedTeam = [
  row('K', 15, 10, 2, 35, 0, 0, 0),
  row('P', 20, 18, 6, 44, 0, 1, 0),
  row('4F', 35, 52, 50, 88, 40, 68, 9),
  row('1F', 30, 53, 35, 75, 6, 11, 0),
  row('P', 25, 54, 24, 65, 2, 3, 0),
  row('P', 30, 75, 39, 76, 5, 8, 0),
  row('P', 40, 98, 70, 89, 15, 16, 0),
  row('K', 25, 88, 37, 72, 4, 5, 0),
  row('K', 35, 100, 66, 86, 12, 12, 0),
];

const teams: readonly (readonly [name: string, members: readonly Ability[], rows: readonly Row[]])[] = [
  ['expert, solid, solid', ['expert', 'solid', 'solid'], solidTeam],
  ['expert, learning, one who cannot be counted on', ['expert', 'learning', 'unreliable'], mixedTeam],
];

const tolerancePct = 5;

describe.each(teams)('%s', (_, members, rows) => {
  test.each(rows)('snow $hardness, $slopeDeg degrees', (expected) => {
    const shares = (variant: 'roped' | 'running' | 'running-capture' | 'pitched') =>
      simulateShares({
        party: teamOf(...members),
        variant,
        snow: dry(expected.hardness),
        slopeDeg: expected.slopeDeg,
        betaDeg: 0,
        allDevices: true,
      });
    const running = shares('running');
    const capture = shares('running-capture');
    const found: Omit<Row, 'hardness' | 'slopeDeg'> = {
      roped: shares('roped').unheld,
      running: running.unheld,
      leadPulledOff: running.leadPulledOff,
      capture: capture.unheld,
      leadPulledOffCapture: capture.leadPulledOff,
      pitched: shares('pitched').unheld,
    };
    for (const key of Object.keys(found) as (keyof typeof found)[]) {
      expect(Math.abs(found[key] - expected[key]), `${key} ${found[key]}`).toBeLessThanOrEqual(tolerancePct);
    }
  });

  test.each(['roped', 'running', 'running-capture', 'pitched'] as const)(
    'bare ice at 25 degrees holds nothing: %s',
    (variant) => {
      const ice = {
        party: teamOf(...members),
        variant,
        snow: dry('I'),
        slopeDeg: 25,
        betaDeg: 0,
        allDevices: true,
      };
      expect(simulateShares(ice).unheld).toBeGreaterThanOrEqual(100 - tolerancePct);
    },
  );
});
