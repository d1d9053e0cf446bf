import { expect, test } from 'vitest';
import { catalogue } from '../../../src/core/assumptions/catalogue';
import { figureAt, figurePaths, withFigure } from '../../../src/core/assumptions/figure-path';
import { defaultFigures } from '../../../src/core/assumptions/figures';

test('every figure the model uses is in the catalogue, and nothing else is', () => {
  const listed = catalogue.map(({ key }) => key);
  const used = figurePaths(defaultFigures).map(([key]) => key);
  expect(listed.toSorted()).toEqual(used.toSorted());
  expect(new Set(listed).size).toBe(listed.length);
});

test('every default lies within its own range', () => {
  for (const entry of catalogue) {
    expect(entry.default, entry.key).toBeGreaterThanOrEqual(entry.min);
    expect(entry.default, entry.key).toBeLessThanOrEqual(entry.max);
    expect(entry.min, entry.key).toBeLessThan(entry.max);
  }
});

test('every figure has words and a source, and no two have the same words', () => {
  const labels = catalogue.map(({ label }) => label);
  expect(new Set(labels).size).toBe(labels.length);
  for (const { key, label, source, group } of catalogue) {
    expect(label.length, key).toBeGreaterThan(5);
    expect(source.length, key).toBeGreaterThan(5);
    expect(group.length, key).toBeGreaterThan(3);
  }
});

test('a figure that does not exist is a defect, and said so', () => {
  for (const key of ['snow.P', 'snow.P.pieceKN.low', 'snow.Q.pieceKN', 'toString', '']) {
    expect(() => figureAt(defaultFigures, key), key).toThrow(RangeError);
    expect(() => withFigure(defaultFigures, key, 1), key).toThrow(RangeError);
  }
});
