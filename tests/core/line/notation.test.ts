import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
import type { LngLat } from '../../../src/core/domain/coordinates';
import { distanceM } from '../../../src/core/line/geodesic';
import { destination } from '../../destination';
import { fromMgrs, toMgrs } from '../../../src/core/line/mgrs';
import { formatPosition, notations, readPosition } from '../../../src/core/line/notation';
import { toUtm, zoneOf } from '../../../src/core/line/utm';

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

  test('south and west', () => {
    expect(formatPosition([-6.8652, -45.8326], 'degrees-minutes-seconds')).toBe('45°49′57.4″ S 6°51′54.7″ W');
    expect(formatPosition([-6.8652, -45.8326], 'decimal-degrees')).toBe('-45.83260, -6.86520');
    expect(formatPosition([0, 0], 'degrees-minutes-seconds')).toBe('0°00′00.0″ N 0°00′00.0″ E');
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
    expect(toUtm([7, -80])).toMatchObject({ zone: 32, band: 'C' });
  });

  /** NGA.STND.0037, figure of the grid zones: 32V begins at 3 degrees east; 31X, 33X, 35X and 37X are 9 and 12 degrees wide. */
  test.each<[number, readonly (readonly [lngDeg: number, zone: number])[]]>([
    [
      55.99,
      [
        [2.99, 31],
        [3, 31],
        [5.99, 31],
        [6, 32],
      ],
    ],
    [
      56,
      [
        [2.99, 31],
        [3, 32],
        [11.99, 32],
        [12, 33],
      ],
    ],
    [
      63.99,
      [
        [3, 32],
        [11.99, 32],
        [12, 33],
      ],
    ],
    [
      64,
      [
        [3, 31],
        [6, 32],
      ],
    ],
    [
      71.99,
      [
        [8.99, 32],
        [9, 32],
        [41.99, 37],
      ],
    ],
    [
      72,
      [
        [-0.01, 30],
        [0, 31],
        [8.99, 31],
        [9, 33],
        [20.99, 33],
        [21, 35],
        [32.99, 35],
        [33, 37],
        [41.99, 37],
        [42, 38],
      ],
    ],
    [
      84,
      [
        [0, 31],
        [9, 33],
      ],
    ],
  ])('zones along %d degrees north', (latDeg, places) => {
    expect(places.map(([lngDeg]) => zoneOf([lngDeg, latDeg]))).toEqual(places.map(([, zone]) => zone));
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
      ['12SAA1', '1e3, 5', 'NaN, NaN', '32X 334200 5077664', '0T 500000 5077664'],
      ['45°60′ N 6 E', '45°30′60″ N 6 E', '45°30.5′10″ N 6 E', '45.5°30″ N 6 E'],
      ['x32TLR3420077664', '32TLR3420077664x', '32TLR334200777664', '32 334200 5077664'],
      // A northing beyond the equator, and one beyond 84 north.
      ['32S 500000 10000100', '32N 500000 9700000'],
    ].flat(),
  )('nothing in "%s"', (text) => {
    expect(readPosition(text)).toEqual([]);
  });

  test.each([
    ['32TLR3420077664', 'mgrs', ['']],
    ['32T 334200.77 5077664.59', 'utm', ['']],
    ['1T 500000 5077664', 'utm', ['']],
    ['32N 500000 500000', 'utm', ['']],
    ['32N 500000 5077664', 'utm', ['N is the northern half']],
    ['45.8326 N 6.8652 E', 'decimal-degrees', ['']],
    ['6.8652 E 45.8326 N', 'decimal-degrees', ['']],
    ['45°50′ N 6 E', 'degrees-minutes-seconds', ['']],
    ['45 N 6°50′ E', 'degrees-minutes-seconds', ['']],
    ['45°50′ 6', 'degrees-minutes-seconds', ['latitude first', 'longitude first']],
    ['45 6°50′', 'degrees-minutes-seconds', ['latitude first', 'longitude first']],
    ['  45, 6 ', 'decimal-degrees', ['latitude first', 'longitude first']],
  ])('%s is %s, and what is taken for granted is said: %j', (text, notation, assumed) => {
    const found = readPosition(text);
    expect(found.map((reading) => reading.assumed)).toEqual(assumed);
    expect(new Set(found.map((reading) => reading.notation))).toEqual(new Set([notation]));
  });

  test('signs and the poles', () => {
    expect(readPosition('\u221245.5, +6.5')[0]?.position).toEqual([6.5, -45.5]);
    expect(readPosition('-45°30′, 6')[0]?.position).toEqual([6, -45.5]);
    expect(readPosition('90 N 0 E').map(({ position }) => position)).toEqual([[0, 90]]);
    expect(readPosition('+45 N 6 E')).toEqual([]);
  });

  test('whole metres that round a place over its band’s edge still name that place', () => {
    for (let edgeDeg = -72; edgeDeg <= 72; edgeDeg += 8)
      for (const besideM of [-0.4, -0.2, 0.2, 0.4]) {
        const place = destination([9, edgeDeg], { bearingDeg: 0, distanceM: besideM });
        const text = formatPosition(place, 'utm')!;
        const away = readPosition(text).map(({ position }) => distanceM(position, place));
        expect(Math.min(...away), text).toBeLessThan(0.8);
      }
  });

  test('the letter S may be a band or a half: both are offered', () => {
    const found = readPosition('32S 500000 4000000');
    expect(found.map(({ position }) => Math.sign(position[1]))).toEqual([1, -1]);
    expect(found.map(({ assumed }) => assumed)).toEqual([
      'S is the band from 32 to 40 north',
      'S is the southern half',
    ]);
  });

  test('what is written is read again, to the last figure shown', () => {
    const place = fc.tuple(between(-180, 179.999), between(-79.99, 83.99));
    fc.assert(
      fc.property(place, fc.constantFrom(...notations), (position, notation) => {
        const text = formatPosition(position, notation) ?? '';
        const away = readPosition(text).map((reading) => distanceM(reading.position, position));
        expect(Math.min(...away)).toBeLessThan(2.3);
      }),
      { numRuns: cases(1000), seed: 11 },
    );
  });
});

test('a grid square read and written is the same square, at every figure', () => {
  fc.assert(
    fc.property(between(-180, 179.999), between(-79.9, 83.9), (lng, lat) => {
      const text = toMgrs([lng, lat]) ?? '';
      const back = fromMgrs(text);
      if (back === null) throw new Error(`${text} was not found again`);
      expect(distanceM(back, [lng, lat])).toBeLessThan(0.75);
      // At a zone's or band's edge the middle of the square metre may lie over it.
      const again = toMgrs(back) ?? '';
      if (again.slice(0, 3) === text.slice(0, 3)) expect(again).toBe(text);
    }),
    { numRuns: cases(1000), seed: 5 },
  );
});

test('a square of any size is named by its middle', () => {
  const middle = (text: string) => {
    const { eastingM, northingM } = toUtm(fromMgrs(text)!)!;
    return [eastingM, northingM].map((m) => Math.round(m * 10) / 10);
  };
  // The square of FGDC-STD-011-2001, 5.2.2, whose easting is 300 and northing 4300 km.
  expect(middle('18SUJ')).toEqual([350_000, 4_350_000]);
  expect(middle('18SUJ 2 0')).toEqual([325_000, 4_305_000]);
  expect(middle('18S UJ 23 06')).toEqual([323_500, 4_306_500]);
  expect(middle('18suj2348306479')).toEqual([323_483.5, 4_306_479.5]);
});

test('a square that lies beside its zone is not there', () => {
  // At 39 north a zone is 520 km wide: an easting of 100 km is its neighbour's.
  expect(fromMgrs('18SSJ 00000 06479')).toBeNull();
  expect(fromMgrs('18SAJ 23483 06479')).toBeNull();
});
