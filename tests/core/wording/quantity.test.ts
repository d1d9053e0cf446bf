import { expect, test } from 'vitest';
import { fieldText, quantity } from '../../../src/core/wording/quantity';

test('a field shows what is stored in the unit that is read: 60 m of rope are 196.9 ft', () => {
  expect(fieldText(60, quantity('length', 'metric'))).toBe('60');
  expect(fieldText(60, quantity('length', 'imperial'))).toBe('196.9');
  expect(fieldText(90, quantity('mass', 'imperial'))).toBe('198.4');
  expect(fieldText(4, quantity('force', 'imperial'))).toBe('899');
  expect(fieldText(150, quantity('minutes', 'metric'))).toBe('2.5');
});

test('only lengths, masses and forces have another unit', () => {
  const kinds = ['percent', 'degrees', 'count', 'factor', 'minutes', 'speed', 'plain'] as const;
  for (const kind of kinds) expect(quantity(kind, 'imperial')).toEqual(quantity(kind, 'metric'));
});
