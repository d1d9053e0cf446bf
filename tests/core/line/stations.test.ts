import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
import type { LngLat } from '../../../src/core/domain/coordinates';
import { bearingDeg, distanceM, turnDeg, wrapBearingDeg, wrapLngDeg } from '../../../src/core/line/geodesic';
import { destination } from '../../destination';
import { measureLine } from '../../../src/core/line/measured-line';
import {
  lineLengthM,
  makeStations,
  maxStations,
  positionAt,
  stationStepM,
  vertexAlongM,
} from '../../../src/core/line/stations';

const alongM = (positions: readonly LngLat[], stepM: number, alsoAtM: readonly number[] = []): number[] =>
  makeStations(positions, { stepM, alsoAtM }).map((station) => station.alongM);

/** A straight line of the given length, heading north-east. */
const straight = (lengthM: number, from: LngLat = [7, 46]): LngLat[] => [
  from,
  destination(from, { bearingDeg: 45, distanceM: lengthM }),
];

test('stations stand every step and at both ends', () => {
  const found = alongM(straight(23), 5);
  expect(found.map((m) => Math.round(m * 1e6) / 1e6)).toEqual([0, 5, 10, 15, 20, 23]);
});

test('a station stands where the line turns by more than 20 degrees, and not where it turns by less', () => {
  const corner = destination([7, 46], { bearingDeg: 0, distanceM: 12 });
  const sharp = [[7, 46], corner, destination(corner, { bearingDeg: 21, distanceM: 12 })] as LngLat[];
  const blunt = [[7, 46], corner, destination(corner, { bearingDeg: 19, distanceM: 12 })] as LngLat[];
  expect(alongM(sharp, 5).some((m) => Math.abs(m - 12) < 1e-6)).toBe(true);
  expect(alongM(blunt, 5).some((m) => Math.abs(m - 12) < 1e-6)).toBe(false);
});

test('stations stand exactly where they are asked for, and a step gives way to them', () => {
  const found = alongM(straight(20), 5, [7.25, 10.0004, -1, 30]);
  expect(found).toContain(7.25);
  expect(found).toContain(10.0004);
  expect(found).toHaveLength(6);
});

test('beside an end there is only the end, beside a place that is asked for only that place', () => {
  const line = straight(20);
  const lengthM = lineLengthM(line);
  const found = alongM(line, 5, [0.0005, 7.25, 7.2504, lengthM - 0.0005]);
  expect([found[0], found.at(-1)]).toEqual([0, lengthM]);
  expect(found.filter((m) => m > 7 && m < 8)).toEqual([7.25]);
  const turn = [...straight(12), destination(straight(12)[1]!, { bearingDeg: 0, distanceM: 12 })];
  const atTurn = alongM(turn, 5, [12.0005]).filter((m) => m > 11.9 && m < 12.1);
  expect(atTurn).toEqual([12.0005]);
});

test('a line without length has no stations', () => {
  expect(alongM([], 5)).toEqual([]);
  expect(alongM([[7, 46]], 5)).toEqual([]);
  expect(
    alongM(
      [
        [7, 46],
        [7, 46],
      ],
      5,
    ),
  ).toEqual([]);
});

test('a repeated point gives no station without a bearing', () => {
  const [a, b] = straight(20) as [LngLat, LngLat];
  const stations = makeStations([a, a, b, b], { stepM: 5, alsoAtM: [] });
  expect(stations.every((station) => Number.isFinite(station.bearingDeg))).toBe(true);
  expect(stations.at(-1)?.position[0]).toBeCloseTo(b[0], 9);
});

test('no line has more than 100 000 stations: the step grows', () => {
  const line = straight(600_000);
  const stations = makeStations(line, { stepM: 5, alsoAtM: [1, 2, 3] });
  expect(stations.length).toBeLessThanOrEqual(maxStations);
  expect(stations.length).toBeGreaterThan(maxStations * 0.99);
  expect(stationStepM(600_000, 5)).toBeGreaterThan(6);
});

test('a line with more corners than stations still has one at its end', () => {
  const corners = Array.from({ length: 60_000 }, (_, i): LngLat => [7 + (i % 2) * 1e-4, 46 + i * 1e-5]);
  const stations = makeStations(corners, { stepM: 5, alsoAtM: [] });
  expect(stations.length).toBeLessThanOrEqual(maxStations);
  expect(stations.at(-1)?.alongM).toBe(lineLengthM(corners));
});

/** GeographicLib's direct problem on the one side; on edges up to a kilometre and a half, on both sides of what is short. */
test('stations lie within a millimetre of the geodesic, at any latitude and across the 180th meridian', () => {
  const edges = fc.record({
    lng: fc.oneof(between(-180, 180), between(179.99, 180), between(-180, -179.99)),
    lat: fc.oneof(between(-89.9, 89.9), between(-60, 60)),
    towardsDeg: between(0, 360),
    lengthM: fc.oneof(between(0.01, 1500), between(0.01, 160)),
    share: between(0, 1),
  });
  fc.assert(
    fc.property(edges, ({ lng, lat, towardsDeg, lengthM, share }) => {
      const from: LngLat = [lng, lat];
      const line = measureLine([from, destination(from, { bearingDeg: towardsDeg, distanceM: lengthM })]);
      const found = line.at(share * line.lengthM);
      const exact = destination(from, { bearingDeg: towardsDeg, distanceM: share * lengthM });
      expect(distanceM(found.position, exact)).toBeLessThan(0.001);
      expect(Math.abs(found.position[0])).toBeLessThanOrEqual(180);
      if ((1 - share) * lengthM < 1) return;
      const towardsEndDeg = bearingDeg(exact, line.positions[1]!);
      expect(Math.abs(turnDeg(found.bearingDeg, towardsEndDeg))).toBeLessThan(1e-4);
    }),
    { numRuns: cases(2000) },
  );
});

test('along the shortest way across the 180th meridian and over the pole', () => {
  const across: LngLat[] = [
    [179.999, 52],
    [-179.999, 52],
  ];
  expect(lineLengthM(across)).toBeCloseTo(distanceM([0, 52], [0.002, 52]), 6);
  const middle = positionAt(across, lineLengthM(across) / 2);
  expect(Math.abs(middle[0])).toBeCloseTo(180, 6);
  const over: LngLat[] = [
    [0, 89.999],
    [180, 89.999],
  ];
  const top = makeStations(over, { stepM: 50, alsoAtM: [lineLengthM(over) / 2] });
  expect(Math.max(...top.map((station) => station.position[1]))).toBeCloseTo(90, 6);
  expect(top.at(-1)?.bearingDeg).toBeCloseTo(180, 6);
});

test('stations lie on the line: distances between neighbours add up to its length', () => {
  const line: LngLat[] = [
    [7, 46],
    [7.004, 46.003],
    [7.001, 46.006],
    [7.01, 46.01],
  ];
  const stations = makeStations(line, { stepM: 5, alsoAtM: [...vertexAlongM(line)] });
  let sumM = 0;
  for (let i = 1; i < stations.length; i++)
    sumM += distanceM(stations[i - 1]!.position, stations[i]!.position);
  expect(sumM).toBeCloseTo(lineLengthM(line), 5);
});

test('a bearing between two equal points is unknown, not zero', () => {
  expect(bearingDeg([7, 46], [7, 46])).toBeNaN();
});

test('what cannot be walked is a defect', () => {
  expect(() => stationStepM(100, 0)).toThrow(RangeError);
  expect(() => positionAt([], 5)).toThrow(RangeError);
});

test('distances outside the line give its ends; a single point has no direction', () => {
  const line = straight(20);
  expect(distanceM(positionAt(line, -5), line[0] as LngLat)).toBeLessThan(1e-6);
  expect(distanceM(positionAt(line, 500), line[1] as LngLat)).toBeLessThan(1e-6);
  expect(measureLine([[7, 46]]).at(3)).toEqual({ position: [7, 46], bearingDeg: NaN });
  expect(lineLengthM([])).toBe(0);
});

test('angles are brought into their range', () => {
  fc.assert(
    fc.property(between(-1000, 1000), (deg) => {
      expect(wrapLngDeg(deg)).toBeGreaterThanOrEqual(-180);
      expect(wrapLngDeg(deg)).toBeLessThanOrEqual(180);
      // The smallest doubles below zero stay where they are.
      expect(wrapBearingDeg(deg)).toBeGreaterThan(-1e-300);
      expect(wrapBearingDeg(deg)).toBeLessThan(360);
    }),
    { seed: 1, numRuns: cases(2000) },
  );
  expect([wrapLngDeg(180), wrapLngDeg(190), wrapLngDeg(-190), wrapLngDeg(540)]).toEqual([
    -180, -170, 170, -180,
  ]);
  expect([wrapBearingDeg(-1e-20), turnDeg(350, 20), turnDeg(20, 350), turnDeg(0, 180)]).toEqual([
    0, 30, -30, 180,
  ]);
});
