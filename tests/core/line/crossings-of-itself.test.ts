import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cases } from '../../cases';
import type { LngLat } from '../../../src/core/domain/coordinates';
import { selfCrossings } from '../../../src/core/line/crossings-of-itself';

/** A figure of eight: the third leg crosses the first in the middle. */
const eight: LngLat[] = [
  [0, 0],
  [2, 2],
  [2, 0],
  [0, 2],
];

test('a figure of eight crosses itself once, whichever way it is walked', () => {
  expect(selfCrossings(eight)).toEqual([{ firstLeg: 0, secondLeg: 2 }]);
  expect(selfCrossings(eight.toReversed())).toEqual([{ firstLeg: 0, secondLeg: 2 }]);
});

test('it still does across the 180th meridian', () => {
  const across = eight.map(([lng, lat]): LngLat => [lng === 2 ? -179 : 179, lat]);
  expect(selfCrossings(across)).toEqual([{ firstLeg: 0, secondLeg: 2 }]);
});

test('legs that follow one another share a point and do not cross, also when one goes back over the other', () => {
  expect(selfCrossings([])).toEqual([]);
  expect(selfCrossings([[0, 0]])).toEqual([]);
  expect(selfCrossings(eight.slice(0, 3))).toEqual([]);
  expect(
    selfCrossings([
      [0, 0],
      [2, 2],
      [0, 0.1],
    ]),
  ).toEqual([]);
});

test('a leg that ends on another touches it and does not cross it', () => {
  expect(
    selfCrossings([
      [0, 0],
      [2, 0],
      [2, 2],
      [1, 0],
    ]),
  ).toEqual([]);
  expect(
    selfCrossings([
      [1, 0],
      [2, 2],
      [2, 0],
      [0, 0],
    ]),
  ).toEqual([]);
});

test('nor where the leg that ends on the other begins farther west', () => {
  expect(
    selfCrossings([
      [0, 0],
      [2, 0],
      [-1, 2],
      [1, 0],
    ]),
  ).toEqual([]);
});

test('a point that comes twice makes no leg, and its neighbours keep their numbers', () => {
  const [a, b, c, d] = eight as [LngLat, LngLat, LngLat, LngLat];
  expect(selfCrossings([a, a, b, c, c, d])).toEqual([{ firstLeg: 1, secondLeg: 4 }]);
});

/** Back and forth over a straight first leg. */
const stitched = (stitches: number): LngLat[] => [
  [-1, 0],
  [stitches + 1, 0],
  ...Array.from({ length: stitches + 1 }, (_, i): LngLat => [stitches - i, i % 2 === 0 ? 1 : -1]),
];

test('every crossing is named, along the line, up to as many as are asked for', () => {
  const all = selfCrossings(stitched(5));
  expect(all.every(({ firstLeg }) => firstLeg === 0)).toBe(true);
  expect(new Set(all.map(({ secondLeg }) => secondLeg))).toEqual(new Set([2, 3, 4, 5, 6]));
  expect(selfCrossings(stitched(5), 3)).toHaveLength(3);
  expect(selfCrossings(stitched(30))).toHaveLength(20);
});

test('finds what trying every leg against every other by the place where they meet finds', () => {
  const coordinate = fc.integer({ min: -50, max: 50 });
  fc.assert(
    fc.property(fc.array(fc.tuple(coordinate, coordinate), { minLength: 2, maxLength: 12 }), (line) => {
      const slow: string[] = [];
      for (let i = 0; i + 1 < line.length; i++)
        for (let j = i + 2; j + 1 < line.length; j++) {
          const [a, b, c, d] = [line[i]!, line[i + 1]!, line[j]!, line[j + 1]!];
          const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]];
          const turn = ux * vy - uy * vx;
          if (turn === 0) continue;
          const along = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / turn;
          const other = ((c[0] - a[0]) * uy - (c[1] - a[1]) * ux) / turn;
          if (along > 0 && along < 1 && other > 0 && other < 1) slow.push(`${i} ${j}`);
        }
      const found = selfCrossings(line, 1000);
      expect(found.map(({ firstLeg, secondLeg }) => `${firstLeg} ${secondLeg}`).sort()).toEqual(slow.sort());
      expect(found.map(({ firstLeg }) => firstLeg)).toEqual(
        found.map(({ firstLeg }) => firstLeg).sort((p, q) => p - q),
      );
    }),
    { numRuns: cases(1000) },
  );
});
