import { expect, test } from 'vitest';
import { declinationAt } from '../../../src/core/sheet/declination';

test('no date, no declination', () => {
  expect(declinationAt([-21.4, -48.5], null)).toBeNull();
  expect(declinationAt([-21.4, -48.5], 'someday')).toBeNull();
});

test('a date beyond the model is said, and not to be used', () => {
  const late = declinationAt([-21.4, -48.5], '2034-01-17');
  expect(late?.isUsable).toBe(false);
  expect(late?.text).toContain('outside the years of the model');
  expect(declinationAt([-21.4, -48.5], '2026-01-17')?.isUsable).toBe(true);
});

test('near the magnetic pole a compass is called unreliable', () => {
  const atPole = declinationAt([138.5, 85.8], '2026-01-17');
  expect(atPole?.isUsable).toBe(false);
  expect(atPole?.text).toContain('A compass is unreliable here');
});
