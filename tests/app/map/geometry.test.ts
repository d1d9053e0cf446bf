import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { between } from '../../evenly-drawn';
import { drawnLine } from '../../../src/app/map/drawn-line';
import { alongAt, mercator, pointableLine } from '../../../src/app/map/hit';
import { pieceAround, pieceMax, withPiece } from '../../../src/app/map/piece';
import { unwrapped } from '../../../src/app/map/scene';
import { placeAt, stationsBetween } from '../../../src/app/map/stations';
import type { LngLat } from '../../../src/core/domain/coordinates';
import type { LinePoint } from '../../../src/core/domain/project';
import type { Station } from '../../../src/core/domain/station';

const station = (alongM: number, position: LngLat): Station => ({
  alongM,
  position,
  bearingDeg: 0,
  elevationM: null,
  slopeDeg: null,
  designSlopeDeg: null,
  slopeSigmaDeg: null,
  aspectDeg: null,
  curvaturePerM: null,
  gradeDeg: null,
  betaDeg: null,
  runOut: null,
  rasterIndex: null,
});

const line = [station(0, [10, 46]), station(100, [10.001, 46]), station(250, [10.001, 46.001])];

describe('pointing at the line', () => {
  const pointable = pointableLine(line);
  const nearPx = (px: number) => px / (512 * 2 ** 15);

  test('finds the distance along it, and nothing where it is too far', () => {
    expect(alongAt(pointable, [10.0005, 46.00001], nearPx(20))).toBeCloseTo(50, 0);
    expect(alongAt(pointable, [10.001, 46.0005], nearPx(20))).toBeCloseTo(175, 0);
    expect(alongAt(pointable, [10.01, 46.01], nearPx(20))).toBeNull();
  });

  test('works across the 180th meridian', () => {
    const across = pointableLine([station(0, [179.999, 0]), station(200, [-179.999, 0])]);
    expect(alongAt(across, [180, 0], nearPx(20))).toBeCloseTo(100, 0);
    expect(alongAt(across, [-179.9995, 0], nearPx(20))).toBeCloseTo(150, 0);
  });

  /** EPSG:3857: the world is square between the latitudes of 85.05112878 degrees. */
  test('measures the map as EPSG:3857 does', () => {
    expect(mercator([-180, 85.05112878])[0]).toBe(0);
    expect(mercator([-180, 85.05112878])[1]).toBeCloseTo(0, 9);
    expect(mercator([0, 0])).toEqual([0.5, 0.5]);
  });
});

describe('places along the stations', () => {
  test('lie between the two around a distance, and at the ends beyond them', () => {
    expect(placeAt(line, 50)?.[0]).toBeCloseTo(10.0005, 9);
    expect(placeAt(line, -5)).toEqual([10, 46]);
    expect(placeAt(line, 999)).toEqual([10.001, 46.001]);
    expect(placeAt([], 0)).toBeNull();
  });

  test('of a stretch begin and end where it does', () => {
    expect(stationsBetween(line, 50, 175).map(({ alongM }) => alongM)).toEqual([50, 100, 175]);
  });
});

test('longitudes never jump by half a turn', () => {
  const lng = between(-180, 180);
  fc.assert(
    fc.property(fc.array(lng, { minLength: 1, maxLength: 30 }), (lngs) => {
      const places = unwrapped(lngs.map((each): LngLat => [each, 0]));
      places.forEach(([at], i) => {
        const before = places[i - 1];
        if (before) expect(Math.abs(at - before[0])).toBeLessThanOrEqual(180 + 1e-9);
      });
    }),
  );
});

describe('a piece of the line in the hand', () => {
  const points = Array.from({ length: 500 }, (_, i): LinePoint => ({
    position: [i / 1000, 45],
    elevationM: i,
    timeMs: i,
  }));

  test('is the whole of a short line, and a part around the chosen point of a long one', () => {
    expect(pieceAround(7, 3)).toEqual({ first: 0, count: 7 });
    const piece = pieceAround(500, 250);
    expect(piece.count).toBe(pieceMax);
    expect(piece.first).toBeLessThanOrEqual(250);
    expect(piece.first + piece.count).toBeGreaterThan(250);
    expect(pieceAround(500, 499).first + pieceMax).toBe(500);
  });

  test('moved, lengthened or shortened by one point keeps all other points as they were measured', () => {
    const piece = pieceAround(500, 250);
    const positions = points.slice(piece.first, piece.first + piece.count).map(({ position }) => position);
    const moved = withPiece(points, piece, positions.with(5, [9, 9]));
    expect(moved.name).toBe(`move point ${piece.first + 6}`);
    expect(moved.points[piece.first + 5]).toEqual({ position: [9, 9], elevationM: null, timeMs: null });
    expect(moved.points.filter((point) => !points.includes(point))).toHaveLength(1);
    const longer = withPiece(points, piece, positions.toSpliced(5, 0, [9, 9]));
    expect([longer.points.length, longer.name]).toEqual([501, `insert point ${piece.first + 6}`]);
    const shorter = withPiece(points, piece, positions.toSpliced(5, 1));
    expect([shorter.points.length, shorter.name]).toEqual([499, `delete point ${piece.first + 6}`]);
    expect(shorter.points.every((point) => points.includes(point))).toBe(true);
  });
});

describe('the line as it is drawn', () => {
  const wavy = (i: number): LngLat => [10 + i * 2e-5, 46 + 3e-4 * Math.sin(i / 40)];

  test('keeps within 5 cm of every station, and leaves out those that change nothing', () => {
    const stations = Array.from({ length: 2000 }, (_, i) => wavy(i));
    const drawn = drawnLine(stations);
    expect(drawn.length).toBeLessThan(stations.length / 2);
    expect([drawn[0], drawn.at(-1)]).toEqual([stations[0], stations.at(-1)]);
    const offDeg = ([x, y]: LngLat): number => {
      let least = Infinity;
      for (let i = 1; i < drawn.length; i++) {
        const [[ax = NaN, ay = NaN] = [], [bx = NaN, by = NaN] = []] = [drawn[i - 1], drawn[i]];
        const t = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / ((bx - ax) ** 2 + (by - ay) ** 2);
        const near = Math.min(1, Math.max(0, t));
        least = Math.min(least, Math.hypot(x - ax - near * (bx - ax), y - ay - near * (by - ay)));
      }
      return least;
    };
    expect(Math.max(...stations.filter((_, i) => i % 50 === 0).map(offDeg))).toBeLessThan(4.6e-7);
  });

  test('a straight piece is its two ends, also across the 180th meridian', () => {
    const across = Array.from({ length: 100 }, (_, i): LngLat => [
      i < 50 ? 179.9 + i * 0.002 : -180 + (i - 50) * 0.002,
      46,
    ]);
    const drawn = drawnLine(across);
    expect(drawn).toHaveLength(2);
    expect(drawn[1]?.[0]).toBeCloseTo(180.098, 9);
  });
});
