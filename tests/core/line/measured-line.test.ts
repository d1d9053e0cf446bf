import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
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

test('which edge holds a distance does not hang on what was asked before', () => {
  const positions = [a!, a!, b!, b!, c!, [7.02, 46.02] as LngLat];
  const line = measureLine(positions);
  fc.assert(
    fc.property(fc.array(fc.oneof(between(-0.1, 1.1), fc.constantFrom(0, 1))), (shares) => {
      for (const share of shares) {
        const alongM = share * line.lengthM;
        expect(line.edgeIndexAt(alongM)).toBe(measureLine(positions).edgeIndexAt(alongM));
      }
    }),
    { numRuns: cases(200) },
  );
});
