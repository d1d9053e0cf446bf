import { expect, test } from 'vitest';
import type { LngLat } from '../../../src/core/domain/coordinates';
import { jumpsOf, withoutStrays } from '../../../src/core/line/jumps';

const at = (lat: number, lng = 7): { position: LngLat } => ({ position: [lng, lat] });
const walk = [46, 46.001, 46.002, 46.003].map((lat) => at(lat));

test('a leg of 300 km is a jump, one of 90 km is none', () => {
  // One degree of the meridian at 46 degrees is 111.1 km (WGS 84).
  expect(jumpsOf([at(46), at(48.7)])).toEqual([{ index: 1, lengthM: expect.closeTo(300_120, -3) as number }]);
  expect(jumpsOf([at(46), at(46.81)])).toEqual([]);
  expect(jumpsOf([at(0, 179.9), at(0, -179.9)])).toEqual([]);
  expect(jumpsOf([])).toEqual([]);
  // Neither half round the Earth nor across the equator is near.
  expect(jumpsOf([at(46, 20), at(46, -20)])).toHaveLength(1);
  expect(jumpsOf([at(46), at(-46)])).toHaveLength(1);
});

test('one point far off is left out, the line on both sides of it stays whole', () => {
  const line = [...walk.slice(0, 2), at(48.7), ...walk.slice(2)];
  expect(withoutStrays(line)).toEqual(walk);
});

test('of two tracks in one the longer stays', () => {
  const other = [at(52), at(52.001)];
  expect(withoutStrays([...other, ...walk])).toEqual(walk);
  expect(withoutStrays([...walk, ...other])).toEqual(walk);
  expect(withoutStrays(walk)).toEqual(walk);
  expect(withoutStrays([])).toEqual([]);
});

test('what begins near either end of the longest run stays, all of it', () => {
  const day = [46, 46.5, 47, 47.5].map((lat) => at(lat));
  const [stray, next] = [at(55), [at(47.6), at(48.45)]];
  expect(withoutStrays([...day, stray, ...next])).toEqual([...day, ...next]);
  expect(withoutStrays([...next.toReversed(), stray, ...day.toReversed()])).toEqual([
    ...next.toReversed(),
    ...day.toReversed(),
  ]);
});
