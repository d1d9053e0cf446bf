import { describe, expect, test } from 'vitest';
import type { LngLat } from '../../../src/core/domain/coordinates';
import type { LinePoint } from '../../../src/core/domain/project';
import {
  heightsFromFeet,
  isSameLine,
  looksSwapped,
  lookOfHeights,
  swapLngLat,
} from '../../../src/core/line/track-against-ground';

/** A climb from 1500 m, 40 m at a time. */
const groundsM = Array.from({ length: 21 }, (_, i) => 1500 + 40 * i);
const look = (fileOf: (groundM: number, i: number) => number | null) =>
  lookOfHeights(groundsM.map((groundM, i) => ({ fileM: fileOf(groundM, i), groundM })));

describe('a track’s heights beside the ground’s', () => {
  test('as good as the same: what a receiver and a raster are off', () => {
    expect(look((m) => m)).toEqual({ kind: 'same' });
    expect(look((m) => m + 19)).toEqual({ kind: 'same' });
    expect(look((m) => m + 20)).toEqual({ kind: 'same' });
    expect(look((m, i) => m + ((i % 3) - 1) * 60)).toEqual({ kind: 'same' });
  });

  test('another height reference: apart by nearly the same everywhere, above or below', () => {
    // The quasigeoid lies some 50 m above the ellipsoid in the Alps: a receiver's raw heights are that much higher.
    expect(look((m) => m + 50)).toEqual({ kind: 'offset', offsetM: 50 });
    expect(look((m) => m - 50)).toEqual({ kind: 'offset', offsetM: -50 });
    expect(look((m, i) => m + 50 + ((i % 3) - 1) * 24)).toEqual({ kind: 'offset', offsetM: 50 });
  });

  test('apart by something else everywhere is no reference', () => {
    expect(look((m, i) => m + 50 + ((i % 3) - 1) * 25)).toEqual({ kind: 'same' });
    expect(look((m, i) => m + 40 * i)).toEqual({ kind: 'same' });
  });

  test('feet, where feet fit five times better than metres', () => {
    expect(look((m) => m / 0.3048)).toEqual({ kind: 'feet' });
    expect(look((m, i) => m / 0.3048 + ((i % 5) - 2) * 30)).toEqual({ kind: 'feet' });
    // 100 m of feet on the beach: metres with an offset fit as well, so nobody is asked about feet.
    const beach = groundsM.map((_, i) => ({ fileM: (60 + (i % 2)) / 0.3048, groundM: 60 + (i % 2) }));
    expect(lookOfHeights(beach).kind).toBe('offset');
    // Twice as high fits neither.
    expect(look((m) => 2 * m)).toEqual({ kind: 'same' });
  });

  test('by the middle of the differences, so that a third of wild heights changes nothing', () => {
    expect(look((m, i) => (i % 3 === 0 ? m + 3000 : m + 50))).toEqual({ kind: 'offset', offsetM: 50 });
    expect(look((m, i) => m + 50 + (i - 10))).toEqual({ kind: 'offset', offsetM: 50 });
    const even = groundsM
      .slice(1)
      .map((groundM, i) => ({ fileM: groundM + (i % 2 === 0 ? 48 : 52), groundM }));
    expect(lookOfHeights(even)).toEqual({ kind: 'offset', offsetM: 50 });
  });

  test('unknown, where fewer than ten places have both', () => {
    const nine = groundsM.slice(0, 9).map((groundM) => ({ fileM: groundM + 50, groundM }));
    expect(lookOfHeights(nine)).toEqual({ kind: 'unknown' });
    expect(lookOfHeights([...nine, { fileM: 9, groundM: NaN }, { fileM: null, groundM: 9 }])).toEqual({
      kind: 'unknown',
    });
    expect(lookOfHeights([...nine, { fileM: 9, groundM: null }])).toEqual({ kind: 'unknown' });
    expect(lookOfHeights([...nine, { fileM: 50, groundM: 0 }])).toEqual({ kind: 'offset', offsetM: 50 });
  });
});

const point = (position: LngLat, elevationM: number | null = null): LinePoint => ({
  position,
  elevationM,
  timeMs: 7,
});

test('feet become metres, what is unknown stays so, nothing else changes', () => {
  expect(heightsFromFeet([point([1, 2], 1000), point([3, 4])])).toEqual([
    point([1, 2], 304.8),
    point([3, 4]),
  ]);
});

describe('longitude and latitude exchanged', () => {
  const isOnGround = ([lngDeg, latDeg]: LngLat) => lngDeg > 6 && lngDeg < 8 && latDeg > 45 && latDeg < 47;

  test('is said where every point, and only exchanged, lies on the ground', () => {
    expect(looksSwapped([[46, 7]], isOnGround)).toBe(true);
    expect(
      looksSwapped(
        [
          [46, 7],
          [46.5, 7.5],
        ],
        isOnGround,
      ),
    ).toBe(true);
    expect(
      looksSwapped(
        [
          [46, 7],
          [7, 46],
        ],
        isOnGround,
      ),
    ).toBe(false);
    expect(
      looksSwapped(
        [
          [46, 7],
          [50, 7],
        ],
        isOnGround,
      ),
    ).toBe(false);
    expect(looksSwapped([], isOnGround)).toBe(false);
  });

  test('is never said of a longitude beyond 90, which is no latitude', () => {
    expect(looksSwapped([[90, 7]], () => false)).toBe(false);
    expect(looksSwapped([[90, 7]], ([lngDeg]) => lngDeg === 7)).toBe(true);
    expect(looksSwapped([[90.1, 7]], ([lngDeg]) => lngDeg === 7)).toBe(false);
    expect(looksSwapped([[-90.1, 7]], ([lngDeg]) => lngDeg === 7)).toBe(false);
  });

  test('exchanged, points keep what else they have; what cannot be exchanged stays', () => {
    expect(swapLngLat([point([46, 7], 5), point([100, 7])])).toEqual([point([7, 46], 5), point([100, 7])]);
  });
});

test('a line is the same where its places are, in the same order', () => {
  const [a, b, c] = [point([1, 2]), point([3, 4]), point([3, 5])];
  const same = (p: LinePoint[], q: LinePoint[]) => isSameLine({ points: p }, { points: q });
  expect(same([a, b], [point([1, 2], 900), b])).toBe(true);
  expect(same([a, b], [b, a])).toBe(false);
  expect(same([a, b], [a, c])).toBe(false);
  expect(same([a, b], [a, point([9, 4])])).toBe(false);
  expect(same([a, b], [a])).toBe(false);
  expect(same([a], [a, b])).toBe(false);
  expect(same([], [])).toBe(true);
});
