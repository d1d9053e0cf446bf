import { describe, expect, test } from 'vitest';
import type { LngLat } from '../../../src/core/domain/coordinates';
import { settledGaps, settledJumps } from '../../../src/core/files/line-questions';

const point = (lng: number, lat = 46) => ({ position: [lng, lat] as LngLat, elevationM: null, timeMs: null });
const subject = 'two-parts.gpx';

describe('a line with gaps', () => {
  // 77 m a step; recorded anew before the third point, the fifth and the sixth.
  const points = [7, 7.001, 7.01, 7.011, 7.0115, 7.03].map((lng) => point(lng));
  const [wide, narrow, widest] = [
    { index: 2, lengthM: 697 },
    { index: 4, lengthM: 39 },
    { index: 5, lengthM: 1432 },
  ] as const;
  const gaps = [wide, narrow, widest];
  const settle = (answers: Readonly<Record<string, string>>) =>
    settledGaps({ points, gaps, subject, answers });

  test('is refused until somebody says that the way goes there, or which part is meant', () => {
    for (const answers of [{}, { 'GPX-017': '4' }, { 'GPX-017': 'perhaps' }]) {
      const asked = settle(answers);
      expect(asked).toMatchObject({
        ok: false,
        problem: {
          code: 'GPX-017',
          subject,
          place: 'before point 3',
          title: '2 gaps in the line, the widest of 1432 m: nothing was recorded there',
        },
      });
      expect(!asked.ok && asked.problem.question?.choices).toEqual([
        { value: 'cross', label: 'straight across' },
        { value: '1', label: 'part 1, 2 points' },
        { value: '2', label: 'part 2, 3 points' },
        { value: '3', label: 'part 3, 1 point' },
      ]);
    }
  });

  test('is crossed when that is said, each gap named', () => {
    expect(settle({ 'GPX-017': 'cross' })).toEqual({ ok: true, value: { points, crossed: gaps } });
  });

  test('of its parts one is taken, with the pauses within it', () => {
    expect(settle({ 'GPX-017': '1' })).toEqual({
      ok: true,
      value: { points: points.slice(0, 2), crossed: [] },
    });
    expect(settle({ 'GPX-017': '2' })).toEqual({
      ok: true,
      value: { points: points.slice(2, 5), crossed: [{ index: 2, lengthM: 39 }] },
    });
  });

  test('pauses alone ask nothing', () => {
    expect(settledGaps({ points, gaps: [narrow], subject, answers: {} })).toEqual({
      ok: true,
      value: { points, crossed: [narrow] },
    });
  });

  test('a hundred metres are asked about', () => {
    const at = (lengthM: number) =>
      settledGaps({ points, gaps: [{ index: 2, lengthM }], subject, answers: {} }).ok;
    expect([at(99.9), at(100)]).toEqual([true, false]);
  });
});

describe('a line with a jump', () => {
  const points = [point(7), point(7.001), point(7, 48.7), point(7.002), point(7.003)];

  test('is refused until somebody says what it is', () => {
    const asked = settledJumps({ points, subject, answers: {} });
    expect(asked).toMatchObject({
      ok: false,
      problem: {
        code: 'GPX-027',
        place: 'between point 2 and 3',
        title: expect.stringMatching(/^the line jumps 300 km/) as string,
      },
    });
    expect(!asked.ok && asked.problem.question?.choices.map(({ value }) => value)).toEqual(['drop', 'keep']);
  });

  test('loses what lies beyond it, or keeps it', () => {
    expect(settledJumps({ points, subject, answers: { 'GPX-027': 'drop' } })).toEqual({
      ok: true,
      value: points.filter(({ position: [, lat] }) => lat === 46),
    });
    expect(settledJumps({ points, subject, answers: { 'GPX-027': 'keep' } })).toEqual({
      ok: true,
      value: points,
    });
  });

  test('where all belongs together nothing can be dropped', () => {
    // Out by 155 km, and back by legs of 78: each point is near to another.
    const loop = [point(7), point(7, 47.4), point(7, 46.7)];
    const asked = settledJumps({ points: loop, subject, answers: { 'GPX-027': 'drop' } });
    expect(!asked.ok && asked.problem.question?.choices.map(({ value }) => value)).toEqual(['keep']);
  });
});
