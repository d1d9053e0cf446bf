import { describe, expect, test } from 'vitest';
import type { Station } from '../../../src/core/domain/station';
import { nearestIndex, partEdgesM, stationsWithin, withBorders } from '../../../src/core/plan/borders';
import { evenly, profileOf } from './invented';

const { stations } = profileOf([
  ...evenly(5, { slopeDeg: 20, runOut: 'gentle' }),
  ...evenly(5, { slopeDeg: 30, runOut: 'deadly' }),
]);
const at = (alongM: number, of: readonly Station[] = stations) =>
  withBorders(of, [alongM]).stations.find((station) => station.alongM === alongM)!;

describe('a station at a border', () => {
  test('lies between its neighbours and takes the worse ground of both', () => {
    const between = at(22);
    expect(between.designSlopeDeg).toBe(30);
    expect(between.runOut!.P.class).toBe('deadly');
    const [before, after] = [stations[4]!, stations[5]!];
    expect(between.elevationM).toBeCloseTo(
      before.elevationM! + 0.4 * (after.elevationM! - before.elevationM!),
      9,
    );
    expect(between.position[1]).toBeCloseTo(
      before.position[1] + 0.4 * (after.position[1] - before.position[1]),
      12,
    );
    const turned = [...stations].reverse().map((station, i) => ({ ...station, alongM: 5 * i }));
    expect(at(22, turned)).toMatchObject({ designSlopeDeg: 30 });
    expect(at(22, turned).runOut!.P.class).toBe('deadly');
  });

  test('knows nothing where either neighbour knows nothing', () => {
    const hole: Station = { ...stations[5]!, designSlopeDeg: null, elevationM: null, runOut: null };
    for (const of of [
      [...stations.slice(0, 5), hole],
      [{ ...hole, alongM: 15 }, ...stations.slice(4)],
    ])
      expect(at(of[0]!.alongM === 0 ? 22 : 18, of)).toMatchObject({
        designSlopeDeg: null,
        elevationM: null,
        runOut: null,
      });
  });

  test('lies on the short way across the 180th meridian, either way', () => {
    const [a, b] = [stations[0]!, stations[1]!];
    const across = (fromDeg: number, toDeg: number, alongM: number) =>
      at(alongM, [
        { ...a, position: [fromDeg, 10] },
        { ...b, position: [toDeg, 10] },
      ]).position[0];
    expect(across(179.9999, -179.9997, 1)).toBeCloseTo(179.99998, 6);
    expect(across(179.9999, -179.9997, 4)).toBeCloseTo(-179.99978, 6);
    expect(across(-179.9997, 179.9999, 4)).toBeCloseTo(179.99998, 6);
  });

  test('is not made where one stands, nor twice, nor beyond the ends', () => {
    const bordered = withBorders(stations, [10, 10.0005, 0, 45, -3, 99]);
    expect(bordered.stations).toBe(stations);
    expect(Array.from(bordered.isBorder, (is, i) => (is === 1 ? i : -1)).filter((i) => i >= 0)).toEqual([2]);
    expect(withBorders(stations, [12, 12.0004]).stations).toHaveLength(stations.length + 1);
    expect(withBorders([], [12])).toEqual({ stations: [], isBorder: new Uint8Array(0) });
  });
});

test('parts end half-way, or at a border', () => {
  const edges = partEdgesM(withBorders(stations, [12, 30]), 45);
  expect(Array.from(edges)).toEqual(
    [0, 2.5, 7.5, 12, 13.5, 17.5, 22.5, 30, 32.5, 37.5, 42.5, 45].sort((a, b) => a - b),
  );
});

test('stations within a stretch: from its beginning up to, not at, its end; the line’s end is in it', () => {
  expect(stationsWithin(stations, { fromM: 10, toM: 20 })).toEqual({ first: 2, end: 4 });
  expect(stationsWithin(stations, { fromM: 10, toM: 45 })).toEqual({ first: 2, end: 10 });
  expect(stationsWithin([], { fromM: 0, toM: 45 })).toEqual({ first: 0, end: 0 });
  expect(nearestIndex(stations, 11.9)).toBe(2);
  expect(nearestIndex(stations, 12.9)).toBe(3);
});

test('the gap between known and unknown ground is unknown, so long as the known station keeps a part', () => {
  const known = (i: number): Station => ({ ...stations[i]!, alongM: 5 * i });
  const unknown = (i: number): Station => ({ ...known(i), elevationM: null, designSlopeDeg: null });
  const edges = (pattern: string) => {
    const of = [...pattern].map((one, i) => (one === 'k' ? known(i) : unknown(i)));
    const isBorder = new Uint8Array(of.length);
    return Array.from(partEdgesM({ stations: of, isBorder }, 5 * (of.length - 1)));
  };
  expect(edges('kkuukk')).toEqual([0, 2.5, 5, 12.5, 20, 22.5, 25]);
  // The first station and the last are all there is of their ground: they keep their half of the gap.
  expect(edges('kuu')).toEqual([0, 2.5, 7.5, 10]);
  expect(edges('uuk')).toEqual([0, 2.5, 7.5, 10]);
  expect(edges('ukku')).toEqual([0, 5, 7.5, 10, 15]);
  // One between two gaps keeps its part on one side.
  expect(edges('kkukuu')).toEqual([0, 2.5, 5, 12.5, 15, 22.5, 25]);
  // Half of what is known of a station is not enough.
  const half = [known(0), known(1), { ...known(2), designSlopeDeg: null }, { ...known(3), elevationM: null }];
  expect(Array.from(partEdgesM({ stations: half, isBorder: new Uint8Array(4) }, 15))).toEqual([
    0, 2.5, 5, 12.5, 15,
  ]);
});

test('several borders between two stations, in any order, stand each at its place', () => {
  const { stations: all, isBorder } = withBorders(stations, [13, 11, 12, 12.0002, 25, 24.9996, 25.0004]);
  const borders = all.filter((_, i) => isBorder[i] === 1).map(({ alongM }) => alongM);
  expect(borders).toEqual([11, 12, 13, 25]);
  expect(all.map(({ alongM }) => alongM)).toEqual([0, 5, 10, 11, 12, 13, 15, 20, 25, 30, 35, 40, 45]);
  expect(withBorders(stations.slice(0, 1), [0])).toEqual({
    stations: stations.slice(0, 1),
    isBorder: new Uint8Array(1),
  });
});

test('the nearest station, at the ends and in the middle between two', () => {
  expect(nearestIndex(stations, -3)).toBe(0);
  expect(nearestIndex(stations, 99)).toBe(9);
  expect(nearestIndex(stations, 12.5)).toBe(2);
  expect(stationsWithin(stations, { fromM: 20, toM: 44.9995 })).toEqual({ first: 4, end: 10 });
  expect(stationsWithin(stations, { fromM: 20.0005, toM: 44.9 })).toEqual({ first: 4, end: 9 });
});
