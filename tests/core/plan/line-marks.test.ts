import { describe, expect, test } from 'vitest';
import type { LngLat } from '../../../src/core/domain/coordinates';
import type { Mark, MarkKind } from '../../../src/core/domain/mark';
import { meetLine } from '../../../src/core/plan/line-marks';
import { lineOnSphere } from '../../../src/core/plan/local-plane';
import { markOf as made, evenly, placeAt, profileOf } from './invented';

const { stations } = profileOf(evenly(41, { slopeDeg: 20 }));
const line = lineOnSphere(stations);

const markOf = (kind: MarkKind, positions: readonly LngLat[], widthM: number | null = null): Mark =>
  made(kind, positions, { widthM });

/** Spans in whole metres, of marks that reach 15 m. */
const spans = (mark: Mark, of = line) =>
  meetLine(mark, of, 15).map(({ fromM, toM }) => [Math.round(fromM), Math.round(toM)]);

describe('where a mark meets the line', () => {
  test('a place beside it: its width about the nearest place', () => {
    expect(spans(markOf('ice', [placeAt(100, 8)], 30))).toEqual([[85, 115]]);
    expect(spans(markOf('note', [placeAt(100, 8)]))).toEqual([[100, 100]]);
    expect(spans(markOf('ice', [placeAt(100, 16)], 30))).toEqual([]);
  });

  test('a drawn line that runs along it: as far as it is within reach', () => {
    // Half a station's part further at either end.
    expect(spans(markOf('cornice', [placeAt(50, 10), placeAt(120, 10)]))[0]![0]).toBeLessThanOrEqual(48);
    const [span, ...others] = spans(markOf('cornice', [placeAt(50, 10), placeAt(120, 10)]));
    expect(others).toEqual([]);
    // Within 15 m of the ends too: √(15² − 10²) = 11 m.
    expect(span![0]).toBeGreaterThanOrEqual(36);
    expect(span![1]).toBeLessThanOrEqual(134);
    expect(span![1]).toBeGreaterThanOrEqual(122);
  });

  test('a drawn line that runs along it from one end to the other', () => {
    expect(spans(markOf('ice', [placeAt(-20, 3), placeAt(260, 3)]))).toEqual([[0, 200]]);
  });

  test('a drawn line that ends short of it: the nearest of its corners', () => {
    const short = markOf('crevasse-crossing', [placeAt(80, 12), placeAt(100, 5), placeAt(90, 30)], 4);
    expect(spans(short)).toEqual([[98, 102]]);
  });

  test('an area that covers a part of it, or two, or comes near it without covering any', () => {
    const area = (fromM: number, toM: number, westM: number, eastM: number) =>
      markOf('ice', [
        placeAt(fromM, westM),
        placeAt(toM, westM),
        placeAt(toM, eastM),
        placeAt(fromM, eastM),
        placeAt(fromM, westM),
      ]);
    expect(spans(area(60, 90, -10, 10))).toEqual([[60, 90]]);
    expect(spans(area(-30, 300, -10, 10))).toEqual([[0, 200]]);
    // Beside it, as a drawn line: all that is within reach.
    expect(spans(area(60, 90, 10, 30))).toEqual([[48, 103]]);
    expect(spans({ ...area(60, 90, 10, 30), kind: 'moat', widthM: 4 })).toEqual([[88, 92]]);
    const horseshoe = markOf('ice', [
      placeAt(50, -20),
      placeAt(120, -20),
      placeAt(120, 10),
      placeAt(100, 10),
      placeAt(100, -5),
      placeAt(70, -5),
      placeAt(70, 10),
      placeAt(50, 10),
      placeAt(50, -20),
    ]);
    expect(spans(horseshoe)).toEqual([
      [50, 70],
      [100, 120],
    ]);
  });

  test('without a position it meets nothing, nor does it meet a line of one place', () => {
    expect(spans(markOf('ice', []))).toEqual([]);
    const one = lineOnSphere(stations.slice(0, 1));
    expect(spans(markOf('ice', [placeAt(0)]), one)).toEqual([]);
    expect(spans(markOf('ice', [placeAt(0)]), lineOnSphere([]))).toEqual([]);
  });

  test('on the far side of the Earth it meets nothing', () => {
    expect(spans(markOf('ice', [[150, 0.001]], 30))).toEqual([]);
  });

  test('a line that stands still for a moment is met once', () => {
    const twice = [...stations.slice(0, 20), { ...stations[19]!, alongM: 95.001 }, ...stations.slice(20)];
    expect(spans(markOf('ice', [placeAt(95, 3)], 10), lineOnSphere(twice))).toEqual([[90, 100]]);
  });
});
