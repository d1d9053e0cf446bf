import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
import type { LngLat } from '../../../src/core/domain/coordinates';
import type { LinePoint } from '../../../src/core/domain/project';
import { splitAtAntimeridian } from '../../../src/core/line/antimeridian';
import { cleanPoints } from '../../../src/core/line/clean';
import {
  cutLine,
  deleteVertex,
  extendLine,
  isOnMap,
  joinLines,
  moveVertex,
  reverseLine,
} from '../../../src/core/line/edit';
import { lineFromTrack } from '../../../src/core/line/from-track';
import { distanceM, edge } from '../../../src/core/line/geodesic';
import { destination } from '../../destination';
import { nearestOnLine } from '../../../src/core/line/nearest';
import { simplifyLine } from '../../../src/core/line/simplify';
import { sliceLine } from '../../../src/core/line/slice';
import { lineLengthM } from '../../../src/core/line/stations';

const point = (lng: number, lat: number, elevationM: number | null = null): LinePoint => ({
  position: [lng, lat],
  elevationM,
  timeMs: elevationM === null ? null : elevationM * 1000,
});
const positions = (points: readonly LinePoint[]): LngLat[] => points.map(({ position }) => position);
const line = [point(7, 46, 100), point(7.01, 46, 200), point(7.01, 46.01, 300)];
const lengthM = lineLengthM(positions(line));

describe('edits', () => {
  test('move and delete a vertex, or go on from an end; what is new has no height and no time', () => {
    expect(deleteVertex(line, 1)).toEqual([line[0], ...line.slice(2)]);
    expect(moveVertex(line, 2, [7.02, 46])).toEqual([...line.slice(0, 2), point(7.02, 46)]);
    expect(extendLine(line, 'start', [6.9, 46])[0]).toEqual(point(6.9, 46));
    expect(extendLine(line, 'end', [6.9, 46]).at(-1)).toEqual(point(6.9, 46));
  });

  test('cut and joined again it is as long, with the point of the cut', () => {
    const [before, after] = cutLine(line, 500);
    expect(lineLengthM(positions(before))).toBeCloseTo(500, 6);
    expect(lineLengthM(positions(before)) + lineLengthM(positions(after))).toBeCloseTo(lengthM, 6);
    const joined = joinLines(before, after);
    expect(joined).toHaveLength(4);
    expect(joined[1]?.elevationM).toBeGreaterThan(100);
    expect(joined[1]?.elevationM).toBeLessThan(200);
  });

  test('cut at a vertex no point is added; cut at an end nothing is cut off', () => {
    const at = lineLengthM(positions(line.slice(0, 2)));
    expect(cutLine(line, at).map((half) => half.length)).toEqual([2, 2]);
    expect(cutLine(line, 0)).toEqual([[], line]);
    expect(cutLine(line, lengthM)).toEqual([line, []]);
  });

  test('a line joined to another that begins at its end has that place once', () => {
    const [, , end] = line;
    const onwards = [end!, point(7.02, 46.01, 400)];
    expect(joinLines(line, onwards)).toEqual([...line, onwards[1]]);
    expect(joinLines([], onwards)).toEqual(onwards);
  });

  test('nothing is drawn where the web map has no place (EPSG:3857 ends at 85.06 degrees)', () => {
    const latitudes = [0, 85.05, -85.05, 85.07, -85.07, 90];
    expect(latitudes.map((latDeg) => isOnMap([7, latDeg]))).toEqual([true, true, true, false, false, false]);
  });

  test('reversed twice it is the same line, without times', () => {
    const twice = reverseLine(reverseLine(line));
    expect(positions(twice)).toEqual(positions(line));
    expect(twice.every(({ timeMs }) => timeMs === null)).toBe(true);
  });
});

test('lines too short to cut or to split stay as they are', () => {
  expect(sliceLine([], [5])).toEqual([[]]);
  expect(sliceLine(line.slice(0, 1), [5])).toEqual([[{ ...line[0], isBorder: false }]]);
  expect(splitAtAntimeridian([])).toEqual([]);
  const meridian = [point(180, 1), point(-180, 2)];
  expect(splitAtAntimeridian(meridian).map((part) => part.map(({ position }) => position[0]))).toEqual([
    [180, 180],
  ]);
  expect(joinLines(line, [])).toEqual(line);
  expect(joinLines(line, [point(8, 46)])).toHaveLength(4);
});

test('borders beside a vertex are that vertex, several of them one', () => {
  const at = lineLengthM(positions(line.slice(0, 2)));
  const slices = sliceLine(line, [at - 0.0005, at, at + 0.0005]);
  expect(slices.map((slice) => slice.length)).toEqual([2, 2]);
  expect(slices.flat().every(({ isBorder }) => !isBorder)).toBe(true);
});

test('borders after one at a vertex are cut as well', () => {
  const at = lineLengthM(positions(line.slice(0, 2)));
  expect(sliceLine(line, [at, at + 100, at + 200]).map((slice) => slice.length)).toEqual([2, 2, 2, 2]);
});

test('at a border height and time are those between its neighbours, by distance', () => {
  const firstM = lineLengthM(positions(line.slice(0, 2)));
  const [, after] = sliceLine(line, [firstM + (lengthM - firstM) / 4]);
  expect(after?.[0]?.elevationM).toBeCloseTo(225, 6);
  expect(after?.[0]?.timeMs).toBeCloseTo(225_000, 3);
});

test('a height or time known on one side only is unknown at the border between', () => {
  const [, after] = sliceLine([point(7, 46, 100), point(7.01, 46)], [300]);
  expect(after?.[0]).toMatchObject({ elevationM: null, timeMs: null, isBorder: true });
  const [, other] = sliceLine([point(7, 46), point(7.01, 46, 100)], [300]);
  expect(other?.[0]).toMatchObject({ elevationM: null, timeMs: null, isBorder: true });
});

/** Against GeographicLib's geodesic; the sphere of the cutting library is up to 0.56 % off where it counts metres itself. */
test.each([
  { edgeM: 1000, atMostM: 0.001 },
  { edgeM: 5000, atMostM: 0.01 },
])('an edge of $edgeM m is cut on the geodesic, within $atMostM m', ({ edgeM, atMostM }) => {
  let worstM = 0;
  for (const latDeg of [-88, -60, -46, 0, 31, 60, 88])
    for (const lngDeg of [7, 179.99])
      for (let bearingDeg = 0; bearingDeg < 360; bearingDeg += 45) {
        const from: LngLat = [lngDeg, latDeg];
        const to = destination(from, { bearingDeg, distanceM: edgeM });
        const [before] = sliceLine(
          [from, to].map(([lng, lat]) => point(lng, lat)),
          [0.37 * edgeM],
        );
        const cut = before!.at(-1)!.position;
        expect(Math.abs(cut[0])).toBeLessThanOrEqual(180);
        worstM = Math.max(worstM, distanceM(cut, edge(from, to).at(0.37 * edgeM).position));
      }
  expect(worstM).toBeLessThan(atMostM);
});

test('slices meet at their borders and add up', () => {
  const slices = sliceLine(line, [100, 200, 1000]);
  expect(slices).toHaveLength(4);
  slices.slice(1).forEach((slice, i) => expect(slice[0]?.position).toEqual(slices[i]?.at(-1)?.position));
  const sumM = slices.reduce((sum, slice) => sum + lineLengthM(positions(slice)), 0);
  expect(sumM).toBeCloseTo(lengthM, 6);
  expect(slices.flat().filter(({ isBorder }) => !isBorder)).toHaveLength(line.length);
});

describe('simplify', () => {
  const wiggle = fc.array(fc.tuple(between(-40, 40), fc.nat(50)), {
    minLength: 3,
    maxLength: 60,
  });

  test('nothing left out lies farther from the new line than the tolerance', () => {
    fc.assert(
      fc.property(
        wiggle,
        fc.constantFrom(1, 5, 20),
        fc.constantFrom(0, 46, 85, -89.9),
        (steps, toleranceM, lat0) => {
          let along = 0;
          const noisy = steps.map(([asideM, forwardM]) => {
            along += forwardM + 1;
            return point(
              179.99 + along / 111_000 / Math.cos((lat0 * Math.PI) / 180),
              lat0 + asideM / 111_000,
            );
          });
          const wrapped = noisy.map((each) => ({
            ...each,
            position: [((each.position[0] + 540) % 360) - 180, each.position[1]] as LngLat,
          }));
          const simple = simplifyLine(wrapped, toleranceM);
          expect(simple[0]).toEqual(wrapped[0]);
          expect(simple.at(-1)).toEqual(wrapped.at(-1));
          for (const { position } of wrapped)
            expect(nearestOnLine(positions(simple), position)?.offsetM).toBeLessThanOrEqual(
              toleranceM * 1.001 + 1e-6,
            );
        },
      ),
      { numRuns: cases(200), seed: 3 },
    );
  });

  test('a straight line keeps its ends only, a tolerance of nothing keeps every bend', () => {
    const straight = Array.from({ length: 100 }, (_, i) => point(7, 46 + i / 10_000));
    expect(simplifyLine(straight, 0.01)).toHaveLength(2);
    expect(simplifyLine(line, 0)).toEqual(line);
    expect(simplifyLine([], 5)).toEqual([]);
    expect(simplifyLine(line.slice(0, 1), 5)).toHaveLength(1);
  });
});

describe('cleaning', () => {
  test('drops what is no position and what repeats the one before, and says so', () => {
    const dirty = [
      point(7, 46, 1),
      point(7, 46, 2),
      point(NaN, 46),
      point(7, 91),
      point(181, 46),
      point(7.1, Infinity),
      point(7.1, 46, 3),
    ];
    const { points, dropped } = cleanPoints(dirty);
    expect(points).toEqual([dirty[0], dirty[6]]);
    expect(dropped).toEqual([
      { index: 1, why: 'repeated' },
      { index: 2, why: 'not a number' },
      { index: 3, why: 'out of range' },
      { index: 4, why: 'out of range' },
      { index: 5, why: 'not a number' },
    ]);
  });

  test('the same place under another name is a repeat: 180 and -180, any longitude at a pole', () => {
    expect(cleanPoints([point(180, 10), point(-180, 10)]).points).toHaveLength(1);
    expect(cleanPoints([point(0, 90), point(120, 90)]).points).toHaveLength(1);
  });

  test('a millimetre apart are two points, less is one, in any direction', () => {
    for (const bearingDeg of [0, 30, 90, 135, 180, 290])
      for (const latDeg of [0, 46, -80]) {
        const from: LngLat = [7, latDeg];
        const kept = (distanceM: number) => {
          const to = destination(from, { bearingDeg, distanceM });
          return cleanPoints([point(from[0], from[1]), point(to[0], to[1])]).points.length;
        };
        expect([0.0009, 0.0011].map(kept)).toEqual([1, 2]);
      }
  });
});

test('a track becomes a line with its gaps told', () => {
  const track = {
    name: '',
    kind: 'track' as const,
    parts: [line.slice(0, 2), [point(7.01, 46, 200), point(7.02, 46, 210)], [point(7.03, 46)]],
  };
  const { line: made, gaps, dropped } = lineFromTrack(track, { id: 'x', name: 'file' });
  expect(made.name).toBe('file');
  expect(made.points).toHaveLength(4);
  expect(dropped).toHaveLength(1);
  expect(gaps).toEqual([{ index: 3, lengthM: distanceM([7.02, 46], [7.03, 46]) }]);
});

test('a track’s own name is kept; what is no position at its beginning leaves no gap', () => {
  const parts = [[point(NaN, 46)], line];
  const made = lineFromTrack({ name: 'Long Way', kind: 'track', parts }, { id: 'x', name: 'file' });
  expect(made.line).toEqual({ id: 'x', name: 'Long Way', points: line });
  expect(made.gaps).toEqual([]);
});

test('parts that meet leave no gap', () => {
  const parts = [line.slice(0, 2), [point(7.01, 46.0000000001), ...line.slice(2)]];
  expect(lineFromTrack({ name: 't', kind: 'track', parts }, { id: 'x', name: '' }).gaps).toEqual([]);
  const apart = [line.slice(0, 1), [point(7.00000002, 46)]];
  expect(lineFromTrack({ name: 't', kind: 'track', parts: apart }, { id: 'x', name: '' }).gaps).toHaveLength(
    1,
  );
});

describe('the 180th meridian (RFC 7946, 3.1.9)', () => {
  test.each<[number[][], number[][]]>([
    [
      [
        [179, 10],
        [-179, 10],
      ],
      [
        [179, 180],
        [-180, -179],
      ],
    ],
    [
      [
        [-179, 10],
        [179, 10],
        [178, 10],
      ],
      [
        [-179, -180],
        [180, 179, 178],
      ],
    ],
    [
      [
        [179, 10],
        [-180, 10],
        [-179, 10],
      ],
      [
        [179, 180],
        [-180, -179],
      ],
    ],
    [
      [
        [179, 10],
        [-180, 10],
        [179, 11],
      ],
      [[179, 180, 179]],
    ],
    [
      [
        [-180, 10],
        [179, 10],
      ],
      [[180, 179]],
    ],
    [
      [
        [180, 10],
        [-179, 10],
      ],
      [[-180, -179]],
    ],
    [
      [
        [-1, 10],
        [1, 10],
      ],
      [[-1, 1]],
    ],
  ])('%j', (given, expected) => {
    const parts = splitAtAntimeridian(given.map(([lng = 0, lat = 0]) => point(lng, lat)));
    expect(parts.map((part) => part.map(({ position }) => position[0]))).toEqual(expected);
    for (const part of parts)
      part
        .slice(1)
        .forEach(({ position }, i) =>
          expect(Math.abs(position[0] - (part[i]?.position[0] ?? 0))).toBeLessThanOrEqual(180),
        );
  });

  test('the point added lies on the shortest way', () => {
    const [west] = splitAtAntimeridian([point(170, 50), point(-170, 60)]);
    const added = west?.at(-1)?.position ?? [0, 0];
    const whole = distanceM([170, 50], [-170, 60]);
    expect(distanceM([170, 50], added) + distanceM(added, [-170, 60])).toBeCloseTo(whole, 4);
    const [east] = splitAtAntimeridian([point(-170, 60), point(170, 50)]);
    expect(east?.at(-1)?.position[0]).toBe(-180);
    expect(east?.at(-1)?.position[1]).toBeCloseTo(added[1], 9);
  });
});
