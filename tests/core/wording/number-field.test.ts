import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readNumber } from '../../../src/core/wording/number-field';

const rope = { asked: 'the rope length in metres', unit: 'm', min: 20, max: 120 };
const free = { asked: 'a figure', unit: '', min: -10_000, max: 10_000 };
const read = (text: string, rule = free) => {
  const reading = readNumber(text, rule);
  return reading.ok ? reading.value : reading.message;
};

test('an empty field asks for what is missing', () => {
  expect(read('', rope)).toBe('Enter the rope length in metres');
  expect(read('   ', rope)).toBe('Enter the rope length in metres');
});

test('point and comma both part decimals', () => {
  expect(read('12.5')).toBe(12.5);
  expect(read('12,5')).toBe(12.5);
});

describe('what can be read two ways is refused', () => {
  test.each(['1,234', '1.234', '12.000', '999,999', '-1,500'])('%s', (text) => {
    expect(read(text)).toContain('can be read two ways');
  });

  test('unless its unit or a leading zero makes it plain', () => {
    expect(read('25,125 m', rope)).toBe(25.125);
    expect(read('0,125')).toBe(0.125);
    expect(read('0.125')).toBe(0.125);
    expect(read('1.2345')).toBe(1.2345);
    expect(read('1234')).toBe(1234);
  });
});

test.each(['1e3', '0x10', 'Infinity', 'NaN', '--5', '5-3', '1.234,5', '1 234', '12m5', '½', '٫5', '.', ','])(
  'refuses %s',
  (text) => {
    expect(readNumber(text, free).ok).toBe(false);
  },
);

test('digits of other scripts are taken for what they are', () => {
  expect(read('１２．５')).toBe(12.5);
  expect(read('١٢٫٥')).toBe(12.5);
  expect(read('۱۲')).toBe(12);
  expect(read('−5')).toBe(-5);
  // Gujarati five: a digit, but not of a script that is read here.
  expect(readNumber('\u0aeb', free).ok).toBe(false);
});

test('out of range names the range', () => {
  expect(read('-5', rope)).toBe('Enter the rope length in metres between 20 and 120');
  expect(read('1000', rope)).toBe('Enter the rope length in metres between 20 and 120');
});

test('whole numbers only where only they make sense', () => {
  const team = { asked: 'the number of climbers', unit: '', min: 1, max: 12, wholeOnly: true };
  expect(read('2.5', team)).toBe('Enter a whole number for the number of climbers');
  expect(read('3', team)).toBe(3);
});

test('minus zero is zero', () => {
  expect(Object.is(read('-0'), 0)).toBe(true);
});

test('whatever is typed: a number within the range, or words', () => {
  fc.assert(
    fc.property(
      fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom(...'0123456789.,-+ em') })),
      (text) => {
        const reading = readNumber(text, rope);
        if (reading.ok) {
          expect(reading.value).toBeGreaterThanOrEqual(20);
          expect(reading.value).toBeLessThanOrEqual(120);
        } else expect(reading.message.length).toBeGreaterThan(5);
      },
    ),
  );
});

test('a number written plainly comes back as itself', () => {
  fc.assert(
    fc.property(fc.integer({ min: -99_999, max: 99_999 }), (tenths) => {
      expect(read((tenths / 10).toFixed(1))).toBeCloseTo(tenths / 10, 9);
      expect(read((tenths / 10).toFixed(1).replace('.', ','))).toBeCloseTo(tenths / 10, 9);
    }),
  );
});
