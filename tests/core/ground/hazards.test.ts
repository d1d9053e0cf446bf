import { booleanPointInPolygon, point, polygon } from '@turf/turf';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { between } from '../../evenly-drawn';
import type { LngLat } from '../../../src/core/domain/coordinates';
import { hazardKinds, type Mark } from '../../../src/core/domain/mark';
import { cellOfPosition } from '../../../src/core/ground/ground-scale';
import { HazardIndex } from '../../../src/core/ground/hazards';
import { Terrain } from '../../../src/core/ground/terrain';
import { makeRaster } from './made-raster';

type Place = readonly [x: number, y: number];

const reachM = 5;
const stepM = 12;

/** Turned by some 37 degrees and of unequal sides, so that no axis stands for another. Its middle lies in the frame's. */
const raster = makeRaster(
  {
    widthPx: 100,
    heightPx: 100,
    cellM: 5,
    affine: { x0: -65, y0: 370, colX: 4, colY: -3, rowX: -2.7, rowY: -4.4 },
  },
  () => 0,
);
const at = (place: Place): LngLat => raster.frame.toLngLat([place[0], place[1]]);

function indexOf(marks: readonly Mark[]): (from: Place, to: Place) => boolean {
  const layer = new Terrain([raster]).layers[0]!;
  const index = new HazardIndex(layer, marks, reachM, stepM);
  return (from, to) => {
    const [a, b] = [cellOfPosition(raster, at(from)), cellOfPosition(raster, at(to))];
    return index.catches(a[0], a[1], b[0], b[1], layer.scales.near(b[0], b[1]));
  };
}

const mark = (places: readonly Place[], { kind = 'cliff', widthM = null }: Partial<Mark> = {}): Mark => ({
  ...{ id: 'm', kind, positions: places.map(at), widthM, bridge: null, seenOn: null, note: '' },
});

const somewhere = fc.tuple(between(-60, 60), between(-60, 60));
const hazards = fc.array(
  fc.record({
    places: fc.array(somewhere, { minLength: 1, maxLength: 5 }),
    isClosed: fc.boolean(),
    widthM: fc.option(between(0, 20)),
  }),
  { minLength: 1, maxLength: 3 },
);
const steps = fc.record({ from: somewhere, towards: between(0, 2 * Math.PI), lengthM: between(0, stepM) });

/** Places a tenth of a metre apart, or closer, from one to the other, both included. */
function walk([x0, y0]: Place, [x1, y1]: Place): Place[] {
  const count = Math.ceil(Math.hypot(x1 - x0, y1 - y0) / 0.1) + 1;
  return Array.from({ length: count + 1 }, (_, i) => [
    x0 + ((x1 - x0) * i) / count,
    y0 + ((y1 - y0) * i) / count,
  ]);
}

const isDrawnClosed = (places: readonly Place[]) => places.length > 3 && places[0] === places.at(-1);

/**
 * How far the nearest of many places on the step lies from the nearest of many on the hazard, at most a tenth of a metre more
 * than it is; 0 where Turf finds the step's end in a closed one.
 */
function apartM(places: readonly Place[], from: Place, to: Place): number {
  if (isDrawnClosed(places)) {
    const small = ([x, y]: Place) => [x / 1000, y / 1000];
    if (booleanPointInPolygon(point(small(to)), polygon([places.map(small)]))) return 0;
  }
  const outline =
    places.length === 1 ? [...places] : places.slice(1).flatMap((place, i) => walk(places[i]!, place));
  let nearest = Infinity;
  for (const a of walk(from, to))
    for (const b of outline) nearest = Math.min(nearest, (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2);
  return Math.sqrt(nearest);
}

/** The oracle knows no segments and no bins, only places. */
test('a step is caught where it passes a hazard within reach, or ends inside one', () => {
  let [caught, missed] = [0, 0];
  fc.assert(
    fc.property(hazards, fc.array(steps, { minLength: 8, maxLength: 8 }), (drawn, taken) => {
      const marks = drawn.map(({ places, isClosed, widthM }) => {
        const all = isClosed && places.length > 2 ? [...places, places[0]!] : places;
        return {
          all,
          reach: reachM + (all.length === 1 ? (widthM ?? 0) / 2 : 0),
          mark: mark(all, { widthM }),
        };
      });
      const catches = indexOf(marks.map((each) => each.mark));
      for (const { from, towards, lengthM } of taken) {
        const to: Place = [from[0] + lengthM * Math.cos(towards), from[1] + lengthM * Math.sin(towards)];
        const beyondM = Math.min(...marks.map(({ all, reach }) => apartM(all, from, to) - reach));
        if (Math.abs(beyondM) < 0.15) continue;
        expect(catches(from, to)).toBe(beyondM < 0);
        if (beyondM < 0) caught++;
        else missed++;
      }
    }),
    // All of them for every change too: what takes time is the oracle, which is not made ready for changes.
    { numRuns: 150 },
  );
  expect(Math.min(caught, missed)).toBeGreaterThan(0);
});

test('each kind of hazard catches, where it is and nowhere else', () => {
  const where = new Map([...hazardKinds].map((kind, i) => [kind, [-200 + 50 * i, 30] as Place]));
  for (const [kind, place] of where) {
    const catches = indexOf([mark([place], { kind })]);
    for (const [other, [x, y]] of where) expect(catches([x - 1, y], [x + 1, y])).toBe(other === kind);
  }
  expect(indexOf([mark([[0, 0]], { kind: 'note' })])([-1, 0], [1, 0])).toBe(false);
});

test('what has no place catches nobody, and keeps no other from catching', () => {
  const nowhere = { ...mark([[0, 0]]), positions: [[NaN, -46] as LngLat] };
  const lost = { ...mark([[0, 0]]), positions: [[-28, -46] as LngLat, [-28, NaN] as LngLat] };
  const none = { ...mark([[0, 0]]), positions: [] };
  expect(indexOf([nowhere, lost, none])([-1, 0], [1, 0])).toBe(false);
  expect(indexOf([nowhere, lost, none, mark([[0, 0]])])([-1, 0], [1, 0])).toBe(true);
});

test('a slide may cross a hazard in one step, with both ends out of reach', () => {
  const catches = indexOf([
    mark([
      [0, -50],
      [0, 0],
      [0, 50],
    ]),
  ]);
  expect(catches([-5.9, 20], [5.9, 20])).toBe(true);
  expect(catches([-5.9, 60], [5.9, 60])).toBe(false);
});

test.each([
  {
    open: [
      [0, -30],
      [40, -30],
      [40, 30],
      [0, 30],
    ],
    within: [15, 0],
  },
  {
    open: [
      [-30, 0],
      [-30, 40],
      [30, 40],
      [30, 0],
    ],
    within: [0, 15],
  },
] as { open: Place[]; within: Place }[])(
  'only what is drawn closed has an inside: $open',
  ({ open, within }) => {
    const step: [Place, Place] = [within, [within[0] + 1, within[1] + 1]];
    expect(indexOf([mark(open)])(...step)).toBe(false);
    expect(indexOf([mark([...open, open[0]!])])(...step)).toBe(true);
  },
);
