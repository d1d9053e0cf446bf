import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { LngLat } from '../../../src/core/domain/coordinates';
import { distanceM } from '../../../src/core/line/geodesic';
import { fromMgrs, toMgrs } from '../../../src/core/line/mgrs';
import { formatPosition, notations, readPosition } from '../../../src/core/line/notation';
import { toUtm } from '../../../src/core/line/utm';

const hut: LngLat = [6.8652, 45.8326];

describe('written', () => {
  test.each([
    ['decimal-degrees', '45.83260, 6.86520'],
    ['degrees-minutes-seconds', '45°49′57.4″ N 6°51′54.7″ E'],
    ['utm', '32T 334201 E 5077665 N'],
    ['mgrs', '32TLR 34200 77664'],
  ] as const)('%s', (notation, text) => {
    expect(formatPosition(hut, notation)).toBe(text);
  });

  test('seconds that round to sixty carry, and a tiny south is not "-0"', () => {
    expect(formatPosition([-0.000001, 9.99999999], 'degrees-minutes-seconds')).toBe(
      '10°00′00.0″ N 0°00′00.0″ E',
    );
    expect(formatPosition([-0.000001, -0.000001], 'decimal-degrees')).toBe('0.00000, 0.00000');
  });

  test('UTM and MGRS do not reach the poles', () => {
    expect(formatPosition([0, 85], 'utm')).toBeNull();
    expect(formatPosition([0, -81], 'mgrs')).toBeNull();
    expect(formatPosition([0, 84], 'mgrs')).not.toBeNull();
  });

  test('the exceptions in southern Norway and Svalbard', () => {
    expect(toUtm([5, 60])).toMatchObject({ zone: 32, band: 'V' });
    expect(toUtm([2.9, 60])).toMatchObject({ zone: 31, band: 'V' });
    expect(toUtm([8, 78])).toMatchObject({ zone: 31, band: 'X' });
    expect(toUtm([10, 78])).toMatchObject({ zone: 33, band: 'X' });
    expect(toUtm([30, 78])).toMatchObject({ zone: 35, band: 'X' });
    expect(toUtm([40, 84])).toMatchObject({ zone: 37, band: 'X' });
    expect(toUtm([180, 10])?.zone).toBe(1);
  });
});

describe('read', () => {
  const north = [6.8652, 45.8326];
  test.each<[string, number[][]]>([
    ['45.8326, 6.8652', [north, [45.8326, 6.8652]]],
    ['45.8326 6.8652', [north, [45.8326, 6.8652]]],
    ['45,8326 6,8652', [north, [45.8326, 6.8652]]],
    ['45.8326N 6.8652E', [north]],
    ['N45.8326 E6.8652', [north]],
    ['6.8652 E, 45.8326 N', [north]],
    ['45.8326 S 6.8652 W', [[-6.8652, -45.8326]]],
    ['-45.8326, -100.5', [[-100.5, -45.8326]]],
    ['100.5, 45', [[100.5, 45]]],
    [`45°49'57.36" N 6°51'54.72" E`, [north]],
    ['45° 49.956′ N, 6° 51.912′ E', [north]],
    ['32T 334200.77 5077664.59', [north]],
    ['32 T 334200.77 E 5077664.59 N', [north]],
    ['32N 334200.77 5077664.59', [north]],
  ])('%s', (text, expected) => {
    const found = readPosition(text).map(({ position }) => position);
    expect(found).toHaveLength(expected.length);
    found.forEach((position, i) => expect(distanceM(position, expected[i] as never)).toBeLessThan(0.02));
  });

  test.each(
    [
      ['', '45.8', '45.8326, 6.8652, 3', '95 N 6 E', '45 N 6 N', '45 N 190 E', '-45 N 6 E', '45.5°30′ N 6 E'],
      ['45°61′ N 6 E', '32I 334200 5077664', '61T 334200 5077664', '32TLR3', '32TIR3420077664', 'hut'],
      ['12SAA1', '1e3, 5', 'NaN, NaN', '32X 334200 5077664'],
    ].flat(),
  )('nothing in "%s"', (text) => {
    expect(readPosition(text)).toEqual([]);
  });

  test('the letter S may be a band or a half: both are offered', () => {
    const found = readPosition('32S 500000 4000000');
    expect(found.map(({ position }) => Math.sign(position[1]))).toEqual([1, -1]);
    expect(found.every(({ assumed }) => assumed !== '')).toBe(true);
  });

  test('what is written is read again, to the last figure shown', () => {
    const place = fc.tuple(
      fc.double({ min: -180, max: 179.999, noNaN: true }),
      fc.double({ min: -79.99, max: 83.99, noNaN: true }),
    );
    fc.assert(
      fc.property(place, fc.constantFrom(...notations), (position, notation) => {
        const text = formatPosition(position, notation) ?? '';
        const away = readPosition(text).map((reading) => distanceM(reading.position, position));
        expect(Math.min(...away)).toBeLessThan(2.3);
      }),
      { numRuns: 1000, seed: 11 },
    );
  });
});

test('a grid square read and written is the same square, at every figure', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -180, max: 179.999, noNaN: true }),
      fc.double({ min: -79.9, max: 83.9, noNaN: true }),
      (lng, lat) => {
        const text = toMgrs([lng, lat]) ?? '';
        const back = fromMgrs(text);
        if (back === null) throw new Error(`${text} was not found again`);
        expect(distanceM(back, [lng, lat])).toBeLessThan(0.75);
        // At a zone's or band's edge the middle of the square metre may lie over it.
        const again = toMgrs(back) ?? '';
        if (again.slice(0, 3) === text.slice(0, 3)) expect(again).toBe(text);
      },
    ),
    { numRuns: 1000, seed: 5 },
  );
});
