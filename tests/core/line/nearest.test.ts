import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
import type { LngLat } from '../../../src/core/domain/coordinates';
import { distanceM } from '../../../src/core/line/geodesic';
import { destination } from '../../destination';
import { measureLine } from '../../../src/core/line/measured-line';
import { nearestOnLine } from '../../../src/core/line/nearest';

/** Walks the line in small steps: slow, and knows nothing of projections. */
function bruteForce(positions: readonly LngLat[], point: LngLat, stepCount: number): number {
  const line = measureLine(positions);
  let best = Infinity;
  for (let i = 0; i <= stepCount; i++)
    best = Math.min(best, distanceM(line.at((line.lengthM * i) / stepCount).position, point));
  return best;
}

/** A start anywhere, also beside the poles and the 180th meridian, and steps from there. */
const start = fc.oneof(
  fc.tuple(between(-180, 180), between(-90, 90)),
  fc.tuple(fc.constantFrom(179.9999, -179.9999, 180), between(-80, 80)),
  fc.tuple(between(-180, 180), fc.constantFrom(89.9995, -89.9995, 90)),
);
const step = fc.record({
  bearingDeg: between(0, 360),
  distanceM: between(0, 3000),
});

test('is as near as brute force finds, anywhere on Earth', () => {
  fc.assert(
    fc.property(start, fc.array(step, { minLength: 1, maxLength: 6 }), step, (from, steps, aside) => {
      const positions: LngLat[] = [from];
      for (const next of steps) positions.push(destination(positions.at(-1) ?? from, next));
      const point = destination(positions[steps.length >> 1] ?? from, aside);
      const found = nearestOnLine(positions, point);
      if (found === null) throw new Error('a line with points has a nearest place');
      const line = measureLine(positions);
      const slow = bruteForce(positions, point, 500);
      // The walk's own step is up to 36 m, so it can only be farther, and by no more than half a step.
      expect(found.offsetM).toBeLessThanOrEqual(slow + 1e-6);
      expect(found.offsetM).toBeGreaterThanOrEqual(slow - line.lengthM / 500 / 2 - 1e-6);
      expect(distanceM(line.at(found.alongM).position, point)).toBeCloseTo(found.offsetM, 4);
    }),
    { numRuns: cases(300), seed: 7 },
  );
});

describe('far away and on long edges', () => {
  test.each<[LngLat[], LngLat]>([
    [
      [
        [-20, 40],
        [-10, 45],
      ],
      [-15, 43.5],
    ],
    [
      [
        [-20, 40],
        [-10, 45],
        [-30, 60],
      ],
      [20, 10],
    ],
    [
      [
        [170, -50],
        [-170, -52],
      ],
      [179, -49],
    ],
  ])('%j to %j', (positions, point) => {
    const found = nearestOnLine(positions, point);
    const slow = bruteForce(positions, point, 20_000);
    expect(found?.offsetM).toBeLessThanOrEqual(slow + 1e-3);
    expect(found?.offsetM).toBeGreaterThan(slow - 60);
  });
});

test('the first of two equally near places, and single points', () => {
  const there: LngLat[] = [
    [0, 0],
    [0.001, 0],
    [0, 0],
  ];
  expect(nearestOnLine(there, [0.0005, 0])?.alongM).toBeCloseTo(55.66, 1);
  expect(nearestOnLine([[0, 0]], [0, 1])?.offsetM).toBeCloseTo(distanceM([0, 0], [0, 1]), 6);
  expect(nearestOnLine([], [0, 1])).toBeNull();
});
