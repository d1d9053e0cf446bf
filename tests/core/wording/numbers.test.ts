import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { between } from '../../evenly-drawn';
import {
  bearingText,
  bytesText,
  countText,
  digits,
  facingText,
  forceText,
  lengthText,
  massText,
  noneText,
  notComputedText,
  placesAlongText,
  riseText,
  shareText,
  shortLengthText,
  slopeRangeText,
  slopeText,
  stretchText,
  unknownText,
  gradeClassText,
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
    expect(plain(lengthText(9994, 'metric'))).toBe('9.99 km');
    expect(plain(lengthText(9996, 'metric'))).toBe('10.0 km');
    expect(plain(shortLengthText(1234, 'metric'))).toBe('1234 m');
  });

  test('feet and miles by the agreement of 1959: 1 ft = 0.3048 m, 1 mi = 1609.344 m', () => {
    expect(plain(shortLengthText(30.48, 'imperial'))).toBe('100 ft');
    expect(plain(lengthText(1609.344, 'imperial'))).toBe('1.00 mi');
    expect(plain(lengthText(402, 'imperial'))).toBe('1319 ft');
    expect(plain(lengthText(403, 'imperial'))).toBe('0.25 mi');
    expect(plain(lengthText(16_093.44, 'imperial'))).toBe('10.0 mi');
  });

  test('what is not known is said, never written as a number', () => {
    for (const lengthM of [null, NaN, Infinity]) {
      expect(lengthText(lengthM, 'metric')).toBe(unknownText);
      expect(shortLengthText(lengthM, 'imperial')).toBe(unknownText);
    }
  });

  test('a stretch has one unit for both ends', () => {
    expect(plain(stretchText(980, 1240, 'metric'))).toBe('0.98–1.24 km');
    expect(plain(stretchText(20, 640, 'metric'))).toBe('20–640 m');
    expect(plain(stretchText(1281, 1282, 'metric'))).toBe('1.28 km');
    expect(plain(stretchText(9000, 11_000, 'metric'))).toBe('9.0–11.0 km');
    expect(plain(stretchText(0, 304.8, 'imperial'))).toBe('0–1000 ft');
    expect(plain(stretchText(100, 3218.688, 'imperial'))).toBe('0.06–2.00 mi');
    expect(plain(stretchText(1609.344, 32_186.88, 'imperial'))).toBe('1.0–20.0 mi');
    expect(stretchText(0, NaN, 'metric')).toBe(`0–${unknownText}`);
  });

  test('places along the line share their unit', () => {
    expect(plain(placesAlongText([2310, 2350, 2400], 'metric'))).toBe('2.31, 2.35, 2.40 km');
    expect(plain(placesAlongText([950, 1010], 'metric'))).toBe('950 m, 1.01 km');
    expect(placesAlongText([], 'metric')).toBe('');
  });

  test('a number never parts from its unit', () => {
    fc.assert(
      fc.property(between(-1e5, 1e5), (m) => {
        for (const units of ['metric', 'imperial'] as const) expect(lengthText(m, units)).not.toContain(' ');
      }),
    );
  });
});

test('up and down stand apart', () => {
  expect(plain(riseText(120, 35, 'metric'))).toBe('+120 m \u221235 m');
  expect(plain(riseText(0.2, 0, 'metric'))).toBe('0 m');
  expect(plain(riseText(0, 12, 'metric'))).toBe('\u221212 m');
  expect(plain(riseText(30.48, 0, 'imperial'))).toBe('+100 ft');
  expect(riseText(120, null, 'metric')).toBe(unknownText);
  expect(riseText(null, 120, 'metric')).toBe(unknownText);
});

describe('slopes', () => {
  test('whole degrees, with one standard deviation to both sides', () => {
    expect(slopeRangeText(31.2, 2.6)).toBe('31° (29–34°)');
    expect(slopeRangeText(1, 2.6)).toBe('1° (0–4°)');
    expect(slopeRangeText(31.2, null)).toBe('31°');
    expect(slopeRangeText(null, 2)).toBe(unknownText);
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
  expect(shareText(0.5)).toBe('1');
  expect(shareText(99.4)).toBe('99');
  expect(shareText(null)).toBe(unknownText);
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
  expect(facingText(-90)).toBe('W');
  expect(facingText(null)).toBe(unknownText);
});

test('4 kN in pounds-force, 4.448 N each', () => {
  expect(plain(forceText(4, 'imperial'))).toBe('900 lbf');
  expect(plain(forceText(4, 'metric'))).toBe('4.0 kN');
});

test('what is carried and what pulls, in both units; unknown where it is not known', () => {
  expect(plain(massText(90, 'metric'))).toBe('90 kg');
  // One pound is 0.45359237 kg (agreement of 1959).
  expect(plain(massText(90, 'imperial'))).toBe('198 lb');
  expect(massText(null, 'metric')).toBe(unknownText);
  expect(forceText(null, 'metric')).toBe(unknownText);
});

test('one piece, several pieces, none', () => {
  expect([0, 1, 3].map((count) => countText(count, 'piece'))).toEqual([noneText, '1 piece', '3 pieces']);
  expect(countText(2, 'crossing of a crevasse', 'crossings of crevasses')).toBe('2 crossings of crevasses');
  expect(countText(null, 'piece')).toBe(unknownText);
});

test('bytes in thousands, as disks count them', () => {
  const sizes = [999, 999.6, 34_200, 999_600, 1_240_000, 12_400_000, 999_400_000, 1_240_000_000];
  expect(sizes.map((bytes) => plain(bytesText(bytes)))).toEqual([
    '999 bytes',
    '1 kB',
    '34 kB',
    '1.0 MB',
    '1.2 MB',
    '12 MB',
    '999 MB',
    '1.2 GB',
  ]);
});

test('a class of grades says where it ends, and where it has none', () => {
  expect(gradeClassText(10, 20)).toBe('10–20°');
  expect(gradeClassText(30, 90)).toBe('over 30°');
});
