import { expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { anchorStrengthN, medianStrengthKN, pieceStrengthN } from '../../../src/core/slip/piece-strength';
import { dry } from './teams';

/** Figures of the model (judgement): a median of 5 kN in pencil snow, lognormal with 0.4, 6.4 kN of hardware, half when wet. */
const veryWet = { hardness: 'P', wetness: 'V' } as const;

test('half of all pieces hold the median; very wet or soaked, half of it', () => {
  expect(medianStrengthKN(defaultFigures, dry('P'))).toBe(5);
  expect(medianStrengthKN(defaultFigures, veryWet)).toBe(2.5);
  expect(medianStrengthKN(defaultFigures, { hardness: 'P', wetness: 'S' })).toBe(2.5);
  expect(medianStrengthKN(defaultFigures, { hardness: 'P', wetness: 'W' })).toBe(5);
  expect(pieceStrengthN(defaultFigures, dry('P'), 0)).toBe(5000);
  expect(pieceStrengthN(defaultFigures, veryWet, 0)).toBe(2500);
});

test('a standard deviation less is a third less; more is no more than the hardware bears', () => {
  expect(pieceStrengthN(defaultFigures, dry('P'), -1)).toBeCloseTo(5000 * Math.exp(-0.4), 6);
  expect(pieceStrengthN(defaultFigures, dry('P'), -2)).toBeCloseTo(5000 * Math.exp(-0.8), 6);
  expect(pieceStrengthN(defaultFigures, dry('1F'), 1)).toBeCloseTo(3000 * Math.exp(0.4), 6);
  expect(pieceStrengthN(defaultFigures, dry('P'), 1)).toBe(6400);
  expect(pieceStrengthN(defaultFigures, veryWet, 1)).toBe(3200);
});

test('two pieces make an anchor of 1.8 times one, up to 9 kN', () => {
  expect(anchorStrengthN(defaultFigures, 4000)).toBe(7200);
  expect(anchorStrengthN(defaultFigures, 6000)).toBe(9000);
});
