import { expect, test } from 'vitest';
import type { LngLat } from '../../../src/core/domain/coordinates';
import { measureLine } from '../../../src/core/line/measured-line';

const [a, b, c]: LngLat[] = [
  [7, 46],
  [7.01, 46],
  [7.01, 46.01],
];

test('a distance lies on the edge that holds it; a vertex on the edge that begins there, the end on the last', () => {
  const line = measureLine([a!, b!, c!]);
  const [, bM, cM] = line.vertexAlongM;
  expect([0, bM! - 1, bM!, bM! + 1, cM!].map((m) => line.edgeIndexAt(m))).toEqual([0, 0, 1, 1, 1]);
});

test('edges without length are passed over where there is another', () => {
  const line = measureLine([a!, a!, b!, b!, b!]);
  const lengthM = line.lengthM;
  expect([0, lengthM / 2, lengthM].map((m) => line.edgeIndexAt(m))).toEqual([1, 1, 1]);
  expect(measureLine([a!, a!, a!]).edgeIndexAt(0)).toBe(0);
  expect(measureLine([a!]).edgeIndexAt(0)).toBe(-1);
});
