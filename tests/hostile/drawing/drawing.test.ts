import { describe, expect, test } from 'vitest';
import { emptyHistory, record, redo, undo } from '../../../src/app/store/history';
import { pieceAround, pieceMax, withPiece } from '../../../src/app/map/piece';
import { unwrapped } from '../../../src/app/map/scene';
import type { LngLat } from '../../../src/core/domain/coordinates';
import type { LinePoint } from '../../../src/core/domain/project';
import { defaultProject } from '../../../src/core/files/project';
import { cleanPoints } from '../../../src/core/line/clean';
import { selfCrossings } from '../../../src/core/line/crossings-of-itself';
import { isOnMap } from '../../../src/core/line/edit';
import { readPosition } from '../../../src/core/line/notation';
import { lineLengthM, makeStations } from '../../../src/core/line/stations';

const point = (position: LngLat): LinePoint => ({ position, elevationM: 1, timeMs: 1 });

describe('drawing', () => {
  test('D1 a line of one point, or of no length, has no stations and so no totals', () => {
    const alone: LngLat = [-21.4, -48.5];
    expect(makeStations([alone], { stepM: 5, alsoAtM: [] })).toEqual([]);
    expect(makeStations([alone, alone], { stepM: 5, alsoAtM: [] })).toEqual([]);
  });

  test('D2 a line that crosses itself is kept, and said to', () => {
    const bow: LngLat[] = [
      [0, 0],
      [1, 1],
      [1, 0],
      [0, 1],
    ];
    expect(selfCrossings(bow)).toEqual([{ firstLeg: 0, secondLeg: 2 }]);
    // Legs that meet at their common point, or only touch, do not cross.
    expect(selfCrossings(bow.slice(0, 3))).toEqual([]);
    const zigzag = Array.from({ length: 5000 }, (_, i): LngLat => [i / 1000, (i % 2) / 1000]);
    expect(selfCrossings(zigzag)).toEqual([]);
    const scribble = Array.from({ length: 300 }, (_, i): LngLat => [Math.sin(i * 2.4), Math.cos(i * 2.4)]);
    expect(selfCrossings(scribble)).toHaveLength(20);
    const overDateLine: LngLat[] = [
      [179.9, 0],
      [-179.9, 0.2],
      [-179.9, 0],
      [179.9, 0.2],
    ];
    expect(selfCrossings(overDateLine)).toEqual([{ firstLeg: 0, secondLeg: 2 }]);
  });

  test('D3 two points on one spot stay two until they are merged', () => {
    const doubled = [point([0, 0]), point([1, 1]), point([1, 1]), point([2, 1])];
    expect(cleanPoints(doubled).points).toHaveLength(3);
    expect(doubled).toHaveLength(4);
  });

  test('D5 beyond the end of the web map no point can be put', () => {
    expect([85.04, -85.04].map((lat) => isOnMap([10, lat]))).toEqual([true, true]);
    expect([85.06, -86, 90].map((lat) => isOnMap([10, lat]))).toEqual([false, false, false]);
  });

  test('D6 a line across the 180th meridian is drawn and measured the short way', () => {
    const across: LngLat[] = [
      [179.99, 10],
      [-179.99, 10],
    ];
    const shown = unwrapped(across);
    expect(Math.abs(shown[1]![0] - shown[0]![0])).toBeCloseTo(0.02, 9);
    // 0.02 degrees of a parallel at latitude 10: about 2.2 km, not the 39 450 km round the world.
    expect(lineLengthM(across)).toBeGreaterThan(2180);
    expect(lineLengthM(across)).toBeLessThan(2200);
  });

  test('D12 undo ends at the beginning; a new edit takes the place of what was undone', () => {
    const first = defaultProject();
    const [second, third] = [
      { ...first, name: 'second' },
      { ...first, name: 'third' },
    ];
    expect(undo(emptyHistory, first)).toBeNull();
    const one = record(emptyHistory, 'rename', [first, second], 0)!.history;
    const back = undo(one, second)!;
    expect(back.project).toEqual(first);
    const other = record(back.history, 'rename again', [first, third], 0)!.history;
    expect(other.edits.map(({ name }) => name)).toEqual(['rename again']);
    expect(redo(other, third)).toBeNull();
  });

  test('D14 of 50 000 points a few can be taken hold of; the others stay exactly what they are', () => {
    const points = Array.from({ length: 50_000 }, (_, i) => point([i * 1e-5, Math.sin(i) * 1e-4]));
    const piece = pieceAround(points.length, 25_000);
    expect(piece.count).toBe(pieceMax);
    const positions = points.slice(piece.first, piece.first + piece.count).map(({ position }) => position);
    const dragged = positions.with(30, [9, 9]);
    const edited = withPiece(points, piece, dragged).points;
    const moved = edited.flatMap((each, i) => (each === points[i] ? [] : [i]));
    expect(moved).toEqual([piece.first + 30]);
  });
});

describe('D16 a pasted place is read in any notation, and asked about where it can be read in two ways', () => {
  test.each([
    ['48.4989 S 21.3759 W', 'decimal-degrees'],
    ['S48.4989, W21.3759', 'decimal-degrees'],
    ['48°29\'56"S 21°22\'33"W', 'degrees-minutes-seconds'],
    ['27F 472231 4628178', 'utm'],
    ['27F VG 72231 28178', 'mgrs'],
  ])('%s', (text, notation) => {
    const readings = readPosition(text);
    expect(readings.map((reading) => reading.notation)).toEqual([notation]);
    const [lng, lat] = readings[0]!.position;
    expect(Math.abs(lng + 21.3759)).toBeLessThan(0.01);
    expect(Math.abs(lat + 48.4989)).toBeLessThan(0.01);
  });

  test('two plain numbers are two places', () => {
    expect(readPosition('-21.3759, -48.4989').map(({ assumed }) => assumed)).toEqual([
      'latitude first',
      'longitude first',
    ]);
  });
});
