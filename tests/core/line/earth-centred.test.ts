import { describe, expect, test } from 'vitest';
import type { LngLat } from '../../../src/core/domain/coordinates';
import { cross, dot, minus, nearestOnChord, size, toXyz } from '../../../src/core/line/earth-centred';

/**
 * WGS 84: semi-major axis 6 378 137 m, semi-minor 6 356 752.3142 m (NGA.STND.0036, World Geodetic System 1984). At 45 degrees
 * the prime vertical radius is a² / sqrt((a² + b²) / 2), the rest follows by hand.
 */
describe('positions on the ellipsoid', () => {
  const [aM, bM] = [6_378_137, 6_356_752.3142];
  const at45M = (aM * aM) / Math.sqrt((aM * aM + bM * bM) / 2);
  const [outM, upM] = [at45M * Math.SQRT1_2, (bM / aM) ** 2 * at45M * Math.SQRT1_2];

  test.each<[LngLat, readonly [number, number, number]]>([
    [
      [0, 0],
      [aM, 0, 0],
    ],
    [
      [90, 0],
      [0, aM, 0],
    ],
    [
      [-90, 0],
      [0, -aM, 0],
    ],
    [
      [180, 0],
      [-aM, 0, 0],
    ],
    [
      [77, 90],
      [0, 0, bM],
    ],
    [
      [0, -90],
      [0, 0, -bM],
    ],
    [
      [0, 45],
      [outM, 0, upM],
    ],
    [
      [60, -45],
      [outM / 2, (outM * Math.sqrt(3)) / 2, -upM],
    ],
  ])('%j', (position, expected) => {
    toXyz(position).forEach((m, i) => expect(m).toBeCloseTo(expected[i]!, 3));
  });
});

test('directions', () => {
  const [a, b] = [
    [1, 2, 3],
    [4, -5, 6],
  ] as const;
  expect(minus(a, b)).toEqual([-3, 7, -3]);
  expect(dot(a, b)).toBe(12);
  expect(cross(a, b)).toEqual([27, 6, -13]);
  expect(size([2, 3, 6])).toBe(7);
});

test('the nearest place of a straight piece is at its foot, or at an end', () => {
  const [a, b] = [
    [1, 1, 1],
    [1, 5, 4],
  ] as const;
  // The piece is 5 long, in the direction of (0, 0.8, 0.6); (0, -0.6, 0.8) is aside of it.
  expect(nearestOnChord(a, b, [3, 1 + 1.6 - 0.6, 1 + 1.2 + 0.8])).toEqual({
    fraction: expect.closeTo(0.4, 12) as number,
    offsetM: expect.closeTo(Math.sqrt(5), 12) as number,
  });
  expect(nearestOnChord(a, b, [1, -1, 1])).toEqual({ fraction: 0, offsetM: 2 });
  expect(nearestOnChord(a, b, [1, 5, 7])).toEqual({ fraction: 1, offsetM: 3 });
  expect(nearestOnChord(a, a, [1, 4, 5])).toEqual({ fraction: 0, offsetM: 5 });
});
