import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  bearingText,
  countText,
  digits,
  facingText,
  forceText,
  lengthText,
  noneText,
  notComputedText,
  riseText,
  shareText,
  shortLengthText,
  slopeRangeText,
  slopeText,
  stretchText,
  unknownText,
} from '../../../src/core/wording/numbers';
import { durationText } from '../../../src/core/wording/time';

/** The narrow no-break space as a common one, for reading. */
const plain = (text: string) => text.replaceAll('\u202f', ' ');

test('unknown, not computed, none and zero never read alike', () => {
  const four = [slopeText(null), durationText(null), countText(0, 'piece'), durationText(0)];
  expect(four.map(plain)).toEqual([unknownText, notComputedText, noneText, '0 min']);
  expect(new Set(four).size).toBe(4);
});

test('minus zero reads as zero', () => {
  expect(digits(-0.4)).toBe('0');
  expect(digits(-0.6)).toBe('\u22121');
});

describe('lengths', () => {
  test('metres while short, kilometres beyond', () => {
    expect(plain(lengthText(999, 'metric'))).toBe('999 m');
    expect(plain(lengthText(999.6, 'metric'))).toBe('1.00 km');
    expect(plain(lengthText(12_345, 'metric'))).toBe('12.3 km');
  });

  test('feet and miles by the agreement of 1959: 1 ft = 0.3048 m, 1 mi = 1609.344 m', () => {
    expect(plain(shortLengthText(30.48, 'imperial'))).toBe('100 ft');
    expect(plain(lengthText(1609.344, 'imperial'))).toBe('1.00 mi');
  });

  test('a stretch has one unit for both ends', () => {
    expect(plain(stretchText(980, 1240, 'metric'))).toBe('0.98–1.24 km');
    expect(plain(stretchText(20, 640, 'metric'))).toBe('20–640 m');
    expect(plain(stretchText(1281, 1282, 'metric'))).toBe('1.28 km');
  });

  test('a number never parts from its unit', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e5, max: 1e5, noNaN: true }), (m) => {
        for (const units of ['metric', 'imperial'] as const) expect(lengthText(m, units)).not.toContain(' ');
      }),
    );
  });
});

test('up and down stand apart', () => {
  expect(plain(riseText(120, 35, 'metric'))).toBe('+120 m \u221235 m');
  expect(plain(riseText(0.2, 0, 'metric'))).toBe('0 m');
  expect(riseText(120, null, 'metric')).toBe(unknownText);
});

describe('slopes', () => {
  test('whole degrees, with one standard deviation to both sides', () => {
    expect(slopeRangeText(31.2, 2.6)).toBe('31° (29–34°)');
    expect(slopeRangeText(1, 2.6)).toBe('1° (0–4°)');
  });

  test('a slope that rounds up to a rule does not read as if it had reached it', () => {
    expect(slopeText(49.96)).toBe('just under 50°');
    expect(slopeText(50)).toBe('50°');
    expect(slopeText(50.4)).toBe('50°');
    expect(slopeText(33.7)).toBe('34°');
  });
});

test('shares are never rounded to a false nothing or everything', () => {
  expect(shareText(0)).toBe('0');
  expect(shareText(0.2)).toBe('under 1');
  expect(shareText(99.8)).toBe('over 99');
  expect(shareText(100)).toBe('100');
});

test('bearings have three digits and stay within the circle', () => {
  expect(bearingText(7.2)).toBe('007°');
  expect(bearingText(359.7)).toBe('000°');
  expect(bearingText(-14.7)).toBe('345°');
  expect(bearingText(null)).toBe(unknownText);
});

test('facings are of eight', () => {
  expect(facingText(0)).toBe('N');
  expect(facingText(337.4)).toBe('NW');
  expect(facingText(337.6)).toBe('N');
  expect(facingText(200)).toBe('S');
});

test('4 kN in pounds-force, 4.448 N each', () => {
  expect(plain(forceText(4, 'imperial'))).toBe('900 lbf');
  expect(plain(forceText(4, 'metric'))).toBe('4.0 kN');
});
