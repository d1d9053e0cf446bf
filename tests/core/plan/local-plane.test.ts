import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
import type { LngLat } from '../../../src/core/domain/coordinates';
import { destination } from '../../destination';
import {
  cutFraction,
  holds,
  lineOnSphere,
  nearestOnPiece,
  onOnePlane,
} from '../../../src/core/plan/local-plane';
import { profileOf } from './invented';

const xy = (x: number, y: number) => ({ x, y });

describe('the plane around a mark', () => {
  const [one] = profileOf([{ slopeDeg: 10 }]).stations;
  const planeAt = (origin: LngLat, place: LngLat) =>
    onOnePlane(lineOnSphere([{ ...one!, position: place }]), [origin]).line[0]!;

  test('keeps distances and directions within a few hundred metres, anywhere on Earth', () => {
    const origin = fc.tuple(between(-180, 180), fc.oneof(between(-89, 89), fc.constantFrom(-89.999, 89.999)));
    fc.assert(
      fc.property(origin, between(0, 360), between(1, 300), (at, bearingDeg, distanceM) => {
        const { x, y } = planeAt(at, destination(at, { bearingDeg, distanceM }));
        // A sphere of the mean radius is up to 0.6 % off the ellipsoid.
        expect(Math.abs(Math.hypot(x, y) - distanceM)).toBeLessThan(0.007 * distanceM);
        const away = Math.hypot(
          x - distanceM * Math.sin((bearingDeg * Math.PI) / 180),
          y - distanceM * Math.cos((bearingDeg * Math.PI) / 180),
        );
        expect(away).toBeLessThan(0.012 * distanceM);
      }),
      { numRuns: cases(1000) },
    );
  });

  test('has no place for the far side of the Earth', () => {
    expect(planeAt([7, 46], [-173, -46])).toEqual({ x: NaN, y: NaN });
    expect(planeAt([7, 46], [97.1, 0])).toEqual({ x: NaN, y: NaN });
    expect(planeAt([7, 46], [96.9, 0]).x).toBeGreaterThan(6.3e6);
    expect(onOnePlane(lineOnSphere([one!]), [])).toEqual({ line: [], shape: [] });
  });
});

describe('the nearest place of a piece', () => {
  test('is at its foot, or at an end', () => {
    expect(nearestOnPiece(xy(1, 1), xy(5, 1), xy(2, 4))).toEqual({ fraction: 0.25, offsetM: 3 });
    expect(nearestOnPiece(xy(1, 1), xy(5, 1), xy(-2, 5))).toEqual({ fraction: 0, offsetM: 5 });
    expect(nearestOnPiece(xy(1, 1), xy(5, 1), xy(8, 5))).toEqual({ fraction: 1, offsetM: 5 });
    expect(nearestOnPiece(xy(2, 0), xy(2, 4), xy(3, 1))).toEqual({ fraction: 0.25, offsetM: 1 });
  });

  test('of a piece without length is its one place', () => {
    expect(nearestOnPiece(xy(1, 1), xy(1, 1), xy(4, 5))).toEqual({ fraction: 0, offsetM: 5 });
  });
});

describe('where a piece is cut by another', () => {
  const [a, b] = [xy(1, 2), xy(5, 2)];
  test('is the share of the way there', () => {
    expect(cutFraction(a, b, xy(2, 0), xy(2, 4))).toBe(0.25);
    expect(cutFraction(a, b, xy(2, 4), xy(2, 0))).toBe(0.25);
    expect(cutFraction(b, a, xy(2, 0), xy(2, 4))).toBe(0.75);
    expect(cutFraction(a, b, xy(1, 0), xy(3, 4))).toBe(0.25);
  });

  test('touching counts, at either end of either', () => {
    expect(cutFraction(a, b, xy(1, 0), xy(1, 4))).toBe(0);
    expect(cutFraction(a, b, xy(5, 0), xy(5, 4))).toBe(1);
    expect(cutFraction(a, b, xy(3, 2), xy(3, 4))).toBe(0.5);
    expect(cutFraction(a, b, xy(3, 0), xy(3, 2))).toBe(0.5);
  });

  test('missing it is none, nor lying beside or along it, nor the far side of the Earth', () => {
    expect(cutFraction(a, b, xy(0.9, 0), xy(0.9, 4))).toBeNull();
    expect(cutFraction(a, b, xy(5.1, 0), xy(5.1, 4))).toBeNull();
    expect(cutFraction(a, b, xy(3, 2.1), xy(3, 4))).toBeNull();
    expect(cutFraction(a, b, xy(3, 0), xy(3, 1.9))).toBeNull();
    expect(cutFraction(a, b, xy(1, 3), xy(5, 3))).toBeNull();
    expect(cutFraction(a, b, a, b)).toBeNull();
    expect(cutFraction(a, b, xy(NaN, NaN), xy(3, 4))).toBeNull();
  });
});

test('a closed shape holds what lies inside it, also beside a dent', () => {
  const dented = [xy(0, 0), xy(4, 0), xy(4, 4), xy(2, 1), xy(0, 4), xy(0, 0)];
  const inside = [xy(1, 1), xy(3, 1), xy(0.5, 2), xy(3.5, 2), xy(2, 0.5)];
  const outside = [xy(2, 2), xy(2, 3.9), xy(-1, 1), xy(5, 1), xy(1, -1), xy(1, 5)];
  for (const shape of [dented, dented.toReversed()]) {
    expect(inside.map((p) => holds(shape, p))).toEqual(inside.map(() => true));
    expect(outside.map((p) => holds(shape, p))).toEqual(outside.map(() => false));
  }
});
