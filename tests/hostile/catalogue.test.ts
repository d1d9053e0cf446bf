import { existsSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { catalogue } from './catalogue';

const tests = resolve(import.meta.dirname, '..');

/** How many rows each letter has: tracks, rasters, projects, drawing, numbers, surroundings, export. */
const rowCount = { G: 38, B: 40, P: 20, D: 17, N: 20, E: 27, X: 10 };

test('every bad input has its row', () => {
  const expected = Object.entries(rowCount).flatMap(([letter, count]) =>
    Array.from({ length: count }, (_, i) => `${letter}${i + 1}`),
  );
  expect(Object.keys(catalogue)).toEqual(expected);
});

const shown = Object.entries(catalogue).flatMap(([id, [, shownBy]]) =>
  shownBy === 'not built' ? [] : shownBy.map((file) => ({ id, file })),
);

describe('the test a row names exists and has a title of its number', () => {
  test.each(shown)('$id in $file', ({ id, file }) => {
    const path = resolve(tests, `${file}.test.ts`);
    expect(existsSync(path), path).toBe(true);
    expect(readFileSync(path, 'utf8')).toMatch(new RegExp(`['"\`](?:[A-Z]\\d+,? )*${id}\\b`));
  });
});

test('a row without a test says why', () => {
  const silent = Object.entries(catalogue).filter(([, row]) => row[1] === 'not built' && !row[2]);
  expect(silent.map(([id]) => id)).toEqual([]);
});
