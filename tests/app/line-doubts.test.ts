import { expect, test } from 'vitest';
import { feetDoubt, gapDoubt, jumpDoubt, swapDoubt } from '../../src/app/line-doubts';
import type { Line, LinePoint } from '../../src/core/domain/project';
import { heightsFromFeet } from '../../src/core/line/track-against-ground';

const point = (lat: number, lng = 7): LinePoint => ({ position: [lng, lat], elevationM: 3000, timeMs: null });
const lineOf = (...lats: number[]): Line => ({ id: 'a', name: 'A', points: lats.map((lat) => point(lat)) });
const values = (doubt: ReturnType<typeof jumpDoubt>) => doubt?.choice.choices.map(({ value }) => value);

test('G17 a wide gap is asked about; left open it parts the line, and no piece of it is lost', () => {
  const line = lineOf(46, 46.001, 46.01, 46.011, 46.012);
  const doubt = gapDoubt(line, [{ index: 2, lengthM: 1001 }], 'metric');
  expect(values(doubt)).toEqual(['apart', 'cross']);
  expect(doubt?.lines['cross']?.()).toEqual([line]);
  const parts = doubt?.lines['apart']?.() ?? [];
  expect(parts.map(({ id }) => id)).toEqual(['a-1', 'a-2']);
  expect(parts.flatMap(({ points }) => points)).toEqual(line.points);
  expect(gapDoubt(line, [{ index: 2, lengthM: 20 }], 'metric')).toBeNull();
});

test('G27 a jump is asked about by number, length and place', () => {
  const doubt = jumpDoubt(lineOf(46, 46.001, 48.7, 46.002), 'metric');
  expect(doubt?.choice.title).toMatch(/^A jumps 300.*km between point 2 \(46\.001.*\) and 3 \(48\.7.*\)\.$/);
  expect(doubt?.lines['without']?.()[0]?.points).toHaveLength(3);
  expect(doubt?.lines['keep']?.()[0]?.points).toHaveLength(4);
  expect(jumpDoubt(lineOf(46, 46.001), 'metric')).toBeNull();
});

test('G24 an exchange is asked about only where it would bring the whole line onto open ground', () => {
  const ground = { outline: [], west: 45, south: 6, east: 47, north: 8 };
  const doubt = swapDoubt(lineOf(46, 46.001), [ground]);
  expect(values(doubt)).toEqual(['keep', 'swap']);
  expect(doubt?.lines['swap']?.()[0]?.points[0]?.position).toEqual([46, 7]);
  expect(swapDoubt(lineOf(46, 46.001), [])).toBeNull();
  expect(swapDoubt(lineOf(46, 60), [ground])).toBeNull();
});

test('G24 a ground across the 180th meridian holds a line on its far side', () => {
  const ground = { outline: [], west: 179, south: -20, east: 181, north: -10 };
  const line: Line = { id: 'a', name: 'A', points: [point(-15, -179.5), point(-15.001, -179.5)] };
  expect(swapDoubt(line, [ground])).toBeNull();
});

test('G30 feet become metres only when the guide says so', () => {
  const line = lineOf(46, 46.001);
  const doubt = feetDoubt(line, { kind: 'feet' }, heightsFromFeet(line.points));
  expect(doubt?.lines['feet']?.()[0]?.points[0]?.elevationM).toBeCloseTo(914.4, 6);
  expect(doubt?.lines['metres']?.()).toEqual([line]);
  expect(feetDoubt(line, { kind: 'offset', offsetM: 48 }, [])).toBeNull();
});
