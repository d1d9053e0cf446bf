import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import type { RunOut } from '../../../src/core/domain/station';
import { isWorse, runOutClass } from '../../../src/core/ground/run-out';

const { gentleMaxMS, injuringMaxMS } = defaultFigures.runOut;
const justAbove = (speedMS: number) => speedMS + 1e-9;

describe('how a slide ends', () => {
  test.each([
    [0, 'gentle'],
    [gentleMaxMS, 'gentle'],
    [justAbove(gentleMaxMS), 'injuring'],
    [injuringMaxMS, 'injuring'],
    [justAbove(injuringMaxMS), 'deadly'],
  ] as const)('that stops after %d m/s at most is %s', (maxSpeedMS, expected) => {
    expect(runOutClass({ ending: 'stops', maxSpeedMS, lengthM: 9, dropM: 4 }, defaultFigures.runOut)).toBe(
      expected,
    );
  });

  test.each(['hazard', 'drop', 'hole', 'edge', 'far'] as const)(
    'in "%s" is deadly, slow as it may be',
    (ending) => {
      expect(runOutClass({ ending, maxSpeedMS: 0, lengthM: 0, dropM: 0 }, defaultFigures.runOut)).toBe(
        'deadly',
      );
    },
  );
});

describe('of two slides the worse', () => {
  /** From the least to the worst, by hand. */
  const rising: readonly Pick<RunOut, 'class' | 'ending' | 'maxSpeedMS'>[] = [
    { class: 'gentle', ending: 'stops', maxSpeedMS: 1 },
    { class: 'gentle', ending: 'stops', maxSpeedMS: 2 },
    { class: 'injuring', ending: 'stops', maxSpeedMS: 1.5 },
    { class: 'injuring', ending: 'stops', maxSpeedMS: 8 },
    { class: 'deadly', ending: 'stops', maxSpeedMS: 3 },
    { class: 'deadly', ending: 'stops', maxSpeedMS: 30 },
    { class: 'deadly', ending: 'hazard', maxSpeedMS: 1 },
    { class: 'deadly', ending: 'far', maxSpeedMS: 40 },
  ];
  const all = rising.map((end): RunOut => ({ ...end, lengthM: 10, dropM: 5 }));

  test('is told by class, then by whether it stops, then by speed', () => {
    for (const [i, a] of all.entries())
      for (const [k, b] of all.entries()) expect(isWorse(a, b), `${i} and ${k}`).toBe(i > k);
  });
});
