import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import type { LngLat } from '../../../src/core/domain/coordinates';
import type { Mark, MarkKind } from '../../../src/core/domain/mark';
import { hardnesses, type Hardness } from '../../../src/core/domain/snow';
import type { RunOutTrace } from '../../../src/core/domain/station';
import { distanceM } from '../../../src/core/line/geodesic';
import { cellOfPosition } from '../../../src/core/ground/ground-scale';
import { readGround } from '../../../src/core/ground/read-ground';
import { traceRunOut } from '../../../src/core/ground/run-out';
import { SmoothSurface } from '../../../src/core/ground/smooth-surface';
import { Terrain } from '../../../src/core/ground/terrain';
import { makeRaster, type MadeRaster } from './made-raster';

const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);

const slides = (
  raster: MadeRaster,
  [x, y]: [number, number],
  hardness: Hardness = 'K',
  marks: Mark[] = [],
): Promise<RunOutTrace[]> =>
  traceRunOut({
    position: raster.frame.toLngLat([x, y]),
    hardness,
    rasters: [raster],
    marks,
    figures: defaultFigures,
  });

/** A slope of `deg` to the east down to x = 0, then level. */
const slopeThenFlat = (deg: number, cellM = 5) =>
  makeRaster({ widthPx: 240, heightPx: 60, cellM }, (x) => 1000 + Math.max(0, -x) * tan(deg));

const mark = (kind: MarkKind, positions: LngLat[], widthM: number | null = null): Mark => ({
  id: 'm',
  kind,
  positions,
  widthM,
  bridge: null,
  seenOn: null,
  note: '',
});

describe('how a slide ends', () => {
  test('where friction holds from the start nobody slides', async () => {
    const [trace] = await slides(slopeThenFlat(2), [-100, 0], 'P');
    expect(trace).toMatchObject({ ending: 'stops', lengthM: 0, dropM: 0, maxSpeedMS: 0 });
    expect(trace!.path).toHaveLength(1);
  });

  test('on the flat below a slope it goes straight on until it stops', async () => {
    const raster = slopeThenFlat(30);
    const traces = await slides(raster, [-40, 0], '1F');
    for (const trace of traces) {
      expect(trace.ending).toBe('stops');
      const end = raster.frame.fromLngLat(trace.path.at(-1)!);
      expect(end[0]).toBeGreaterThan(0);
    }
  });

  test('at the edge of all ground', async () => {
    const raster = makeRaster({ widthPx: 60, heightPx: 60, cellM: 5 }, (x) => 1000 - x * tan(30));
    const traces = await slides(raster, [0, 0], 'P');
    expect(traces.map(({ ending }) => ending)).toEqual(['edge', 'edge', 'edge']);
  });

  test('at a hole in it', async () => {
    const raster = makeRaster({ widthPx: 100, heightPx: 60, cellM: 5 }, (x) =>
      x > 50 && x < 80 ? NaN : 1000 - x * tan(30),
    );
    const traces = await slides(raster, [0, 0], 'P');
    expect(traces.map(({ ending }) => ending)).toEqual(['hole', 'hole', 'hole']);
  });

  test('over a drop of more than 60 degrees', async () => {
    const raster = makeRaster(
      { widthPx: 240, heightPx: 60, cellM: 2 },
      (x) => 1000 - Math.min(x, 40) * tan(25) - Math.max(0, Math.min(x - 40, 20)) * tan(65),
    );
    const [trace] = await slides(raster, [0, 0], 'P');
    expect(trace!.ending).toBe('drop');
    // It takes 5 m of the steep ground to be one.
    expect(raster.frame.fromLngLat(trace!.path.at(-1)!)[0]).toBeLessThan(50);
  });

  test('far away and fast, if nothing else ends it', async () => {
    const raster = makeRaster({ widthPx: 700, heightPx: 60, cellM: 10 }, (x) => 9000 - x * tan(20));
    const [trace] = await slides(raster, [-3000, 0], 'I');
    expect(trace!.ending).toBe('far');
    expect(trace!.lengthM).toBeGreaterThan(1000);
    expect(trace!.maxSpeedMS).toBeGreaterThan(defaultFigures.runOut.injuringMaxMS);
  });

  test('never without end, even without any friction in a bowl', async () => {
    const raster = makeRaster(
      { widthPx: 100, heightPx: 100, cellM: 5 },
      (x, y) => 1000 + (x * x + y * y) / 500,
    );
    const figures = {
      ...defaultFigures,
      snow: {
        ...defaultFigures.snow,
        I: {
          ...defaultFigures.snow.I,
          muSliding: { low: 0, mode: 0, high: 0 },
          muArresting: { low: 0, mode: 0, high: 0 },
        },
      },
    };
    const position = raster.frame.toLngLat([100, 20]);
    const traces = await traceRunOut({ position, hardness: 'I', rasters: [raster], marks: [], figures });
    expect(traces).toHaveLength(3);
  });

  test('nowhere, where there is no ground to start on', async () => {
    const raster = makeRaster({ widthPx: 60, heightPx: 60, cellM: 5 }, () => NaN);
    expect(await slides(raster, [0, 0])).toEqual([]);
  });
});

describe('hazards', () => {
  const raster = slopeThenFlat(30);
  const at = (x: number, y: number): LngLat => raster.frame.toLngLat([x, y]);

  test.each([
    { what: 'a point it passes within 15 m', positions: [at(-40, 14)], caught: true },
    { what: 'a point it passes farther off', positions: [at(-40, 40)], caught: false },
    { what: 'a drawn line it crosses', positions: [at(-41, -200), at(-39, 200)], caught: true },
    {
      what: 'a drawn extent it runs into',
      positions: [at(-60, -120), at(-60, 120), at(60, 120), at(60, -120), at(-60, -120)],
      caught: true,
    },
    {
      what: 'a drawn extent beside it',
      positions: [at(-60, 60), at(-60, 120), at(60, 120), at(60, 60), at(-60, 60)],
      caught: false,
    },
  ])('$what', async ({ positions, caught }) => {
    const [trace] = await slides(raster, [-100, 0], 'P', [mark('water', positions)]);
    expect(trace!.ending).toBe(caught ? 'hazard' : 'stops');
  });

  test('a crossing reaches as far as its width says', async () => {
    const crossing = (widthM: number | null) => [mark('crevasse-crossing', [at(-40, 22)], widthM)];
    expect((await slides(raster, [-100, 0], 'P', crossing(null)))[0]!.ending).toBe('stops');
    expect((await slides(raster, [-100, 0], 'P', crossing(20)))[0]!.ending).toBe('hazard');
  });

  test('marks that are no hazard end nothing', async () => {
    for (const kind of ['note', 'gathering-place', 'ice', 'no-standing'] as const) {
      expect((await slides(raster, [-100, 0], 'P', [mark(kind, [at(-40, 0)])]))[0]!.ending).toBe('stops');
    }
  });

  test('many hazards are told apart', async () => {
    const marks = Array.from({ length: 400 }, (_, i) =>
      mark('rock', [at(-600 + (i % 20) * 55, 60 + Math.floor(i / 20) * 4)]),
    );
    expect((await slides(raster, [-100, 0], 'P', marks))[0]!.ending).toBe('stops');
    expect((await slides(raster, [-100, 0], 'P', [...marks, mark('rock', [at(-30, 5)])]))[0]!.ending).toBe(
      'hazard',
    );
  });
});

/** Smooth random mountains. */
const mountains = fc
  .record({
    phases: fc.array(between(0, 6.28), { minLength: 6, maxLength: 6 }),
    tilt: between(-0.3, 0.3),
  })
  .map(({ phases, tilt }) => (x: number, y: number): number => {
    const [a, b, c, d, e, f] = phases as [number, number, number, number, number, number];
    return (
      2000 +
      tilt * x +
      60 * Math.sin(x / 90 + a) * Math.cos(y / 110 + b) +
      25 * Math.sin((x + y) / 50 + c) +
      12 * Math.cos((x - 2 * y) / 37 + d) +
      8 * Math.sin(x / 23 + e) * Math.sin(y / 19 + f)
    );
  });

describe('laws, over random mountains', () => {
  test('a slide only climbs where it goes straight on: out of a pit, over a flat or up a counter slope', async () => {
    let climbs = 0;
    await fc.assert(
      fc.asyncProperty(mountains, fc.constantFrom(...hardnesses), async (z, hardness) => {
        const raster = makeRaster({ widthPx: 120, heightPx: 120, cellM: 5 }, z);
        const layer = new Terrain([raster]).layers[0]!;
        const surface = new SmoothSurface();
        const heightM = (position: LngLat): number => {
          surface.read(layer, ...cellOfPosition(raster, position));
          return surface.elevationM;
        };
        for (const { path } of await slides(raster, [0, 0], hardness)) {
          const points = path.map((position) => raster.frame.fromLngLat(position));
          for (let i = 2; i < points.length - 1; i++) {
            // Stepping over the bottom of a gully by a part of a step gains next to nothing.
            if (!(heightM(path[i]!) - heightM(path[i - 1]!) > 0.05)) continue;
            climbs++;
            const [[x0, y0], [x1, y1], [x2, y2]] = [points[i - 2]!, points[i - 1]!, points[i]!];
            const turn = Math.atan2(y2 - y1, x2 - x1) - Math.atan2(y1 - y0, x1 - x0);
            expect(Math.abs(Math.sin(turn))).toBeLessThan(1e-3);
          }
        }
      }),
      { numRuns: cases(60) },
    );
    expect(climbs).toBeGreaterThan(100);
  });

  test('energy: never faster than the height lost allows', async () => {
    await fc.assert(
      fc.asyncProperty(mountains, fc.constantFrom(...hardnesses), async (z, hardness) => {
        const raster = makeRaster({ widthPx: 120, heightPx: 120, cellM: 5 }, z);
        for (const { path, maxSpeedMS } of await slides(raster, [0, 0], hardness)) {
          const heights = path.map((position) =>
            z(...(raster.frame.fromLngLat(position) as [number, number])),
          );
          // The smooth surface differs from the mountain by up to a metre.
          const mostM = heights[0]! - Math.min(...heights) + 2;
          expect(maxSpeedMS ** 2).toBeLessThanOrEqual(2 * 9.80665 * mostM);
        }
      }),
      { numRuns: cases(60) },
    );
  });

  test('harder snow never ends a slide in a better class', async () => {
    const order = { gentle: 0, injuring: 1, deadly: 2 };
    await fc.assert(
      fc.asyncProperty(mountains, async (z) => {
        const raster = makeRaster({ widthPx: 120, heightPx: 120, cellM: 5 }, z);
        const position = raster.frame.toLngLat([0, 0]);
        const { stations } = await readGround({
          stations: [{ alongM: 0, position, bearingDeg: 0 }],
          rasters: [raster],
          marks: [],
          figures: defaultFigures,
          sigmaZM: [null],
          stepM: 5,
        });
        const classes = hardnesses.map((hardness) => order[stations[0]!.runOut![hardness].class]);
        expect(classes).toEqual([...classes].sort((a, b) => a - b));
      }),
      { numRuns: cases(60) },
    );
  });

  test('a station carries the worst of its three slides', async () => {
    const order = ['gentle', 'injuring', 'deadly'];
    await fc.assert(
      fc.asyncProperty(mountains, fc.constantFrom(...hardnesses), async (z, hardness) => {
        const raster = makeRaster({ widthPx: 120, heightPx: 120, cellM: 5 }, z);
        const position = raster.frame.toLngLat([0, 0]);
        const profile = await readGround({
          stations: [{ alongM: 0, position, bearingDeg: 0 }],
          rasters: [raster],
          marks: [],
          figures: defaultFigures,
          sigmaZM: [null],
          stepM: 5,
        });
        const traces = await slides(raster, [0, 0], hardness);
        const classes = traces.map(({ ending, maxSpeedMS }) =>
          ending !== 'stops' || maxSpeedMS > 12 ? 2 : maxSpeedMS > 5 ? 1 : 0,
        );
        expect(order.indexOf(profile.stations[0]!.runOut![hardness].class)).toBe(Math.max(...classes));
      }),
      { numRuns: cases(40) },
    );
  });
});

test('the same slope ends alike whichever way it faces', async () => {
  const lengths: number[] = [];
  for (const turn of [0, 20, 45, 90, 133, 250]) {
    const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
    const raster = makeRaster(
      { widthPx: 240, heightPx: 240, cellM: 5 },
      (x, y) => 1000 + Math.max(0, -(x * c + y * s)) * tan(28),
    );
    const [trace] = await slides(raster, [-80 * c, -80 * s], 'F');
    expect(trace!.ending).toBe('stops');
    lengths.push(trace!.lengthM);
  }
  // A cell's rounding of the foot of the slope.
  expect(Math.max(...lengths) - Math.min(...lengths)).toBeLessThan(3);
});

test('turned slides keep to their side of the fall line', async () => {
  const raster = makeRaster({ widthPx: 400, heightPx: 400, cellM: 5 }, (x) => 3000 - x * tan(35));
  const traces = await slides(raster, [-500, 0], '1F');
  const bearing = (trace: RunOutTrace): number => {
    const [x, y] = raster.frame.fromLngLat(trace.path.at(-1)!);
    return (Math.atan2(x + 500, y) * 180) / Math.PI;
  };
  expect(traces.map(({ turnDeg }) => turnDeg)).toEqual([0, -15, 15]);
  // The fall line is east; a positive turn is clockwise, to the south of it.
  expect(bearing(traces[0]!)).toBeCloseTo(90, 1);
  expect(bearing(traces[1]!)).toBeCloseTo(75, 1);
  expect(bearing(traces[2]!)).toBeCloseTo(105, 1);
  const { path, lengthM, dropM } = traces[0]!;
  expect(Math.hypot(distanceM(path[0]!, path.at(-1)!), dropM)).toBeCloseTo(lengthM, 0);
});

describe('stations closer than slides are followed from', () => {
  const raster = makeRaster({ widthPx: 300, heightPx: 100, cellM: 5 }, (x) =>
    x > 100 && x < 130 ? NaN : 2000 - x * (x < 0 ? 0.2 : 0.6),
  );
  const read = (stepM: number) =>
    readGround({
      stations: Array.from({ length: Math.round(300 / stepM) + 1 }, (_, i) => ({
        alongM: i * stepM,
        position: raster.frame.toLngLat([-150 + i * stepM, 0]),
        bearingDeg: 90,
      })),
      rasters: [raster],
      marks: [],
      figures: defaultFigures,
      sigmaZM: [null],
      stepM,
    });

  test('take the worse of those beside them, and none goes without', async () => {
    const [dense, sparse] = [await read(0.5), await read(2.5)];
    const rank = (runOut: { class: string }): number =>
      ['gentle', 'injuring', 'deadly'].indexOf(runOut.class);
    dense.stations.forEach((station, i) => {
      expect(station.runOut === null).toBe(station.slopeDeg === null);
      const beside = [Math.floor(i / 5), Math.ceil(i / 5)]
        .map((k) => sparse.stations[k]!.runOut)
        .filter((runOut) => runOut !== null);
      if (station.runOut === null || beside.length < 2) return;
      for (const hardness of hardnesses) {
        expect(rank(station.runOut[hardness])).toBe(
          Math.max(...beside.map((runOut) => rank(runOut[hardness]))),
        );
      }
    });
  });
});
