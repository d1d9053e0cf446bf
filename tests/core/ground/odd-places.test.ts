import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import type { LngLat } from '../../../src/core/domain/coordinates';
import type { Mark } from '../../../src/core/domain/mark';
import type { MapFrame, Raster } from '../../../src/core/domain/raster';
import { hardnesses, type Hardness } from '../../../src/core/domain/snow';
import type { LineStation } from '../../../src/core/domain/station';
import { coarsen } from '../../../src/core/ground/coarsen';
import { groundAt } from '../../../src/core/ground/ground-at';
import { readGround } from '../../../src/core/ground/read-ground';
import { elevationTile, shadeTile, slopeTintTile } from '../../../src/core/ground/relief';
import { traceRunOut } from '../../../src/core/ground/run-out';
import { fillBetween } from '../../../src/core/ground/slide-sources';
import { terrainPixels } from '../../../src/core/ground/terrain-tile';
import { localFrame, makeRaster, middleOfOcean } from './made-raster';

/** Where ground is read at its limits: no slope, no neighbours, blocks on their way, lines of no length. */
const slopeToEast = (x: number) => 1000 - x / 2;
const base = { widthPx: 200, heightPx: 60, cellM: 10 };

const profile = (stations: readonly LineStation[], rasters: readonly Raster[]) =>
  readGround({
    stations,
    rasters,
    marks: [],
    figures: defaultFigures,
    sigmaZM: rasters.map(() => null),
    stepM: 5,
  });
const stationsAt = (raster: Raster, xs: readonly number[]): LineStation[] =>
  xs.map((x) => ({ alongM: x - xs[0]!, position: raster.frame.toLngLat([x, 0]), bearingDeg: 90 }));
const slides = (rasters: readonly Raster[], x: number, hardness: Hardness = 'K', marks: Mark[] = []) =>
  traceRunOut({
    position: rasters[0]!.frame.toLngLat([x, 0]),
    hardness,
    rasters,
    marks,
    figures: defaultFigures,
  });
const hazard = (positions: readonly LngLat[]): Mark => ({
  id: 'm',
  kind: 'rock',
  positions,
  widthM: null,
  bridge: null,
  seenOn: null,
  note: '',
});

describe('a place with an elevation and no slope', () => {
  /** Reads places, and cannot say where its cells are: no scale, hence no slope. */
  const oneWay: MapFrame = { ...localFrame(middleOfOcean), toLngLat: () => [NaN, NaN] };

  test('where the raster has no scale', async () => {
    const raster = makeRaster({ ...base, frame: oneWay }, slopeToEast);
    const [point] = await groundAt([middleOfOcean], [raster]);
    expect(point).toMatchObject({ elevationM: 1000, slopeDeg: null, aspectDeg: null, rasterIndex: 0 });
  });

  test('of two such rasters the finer one speaks', async () => {
    const fine = makeRaster({ ...base, cellM: 5, frame: oneWay }, () => 900);
    const [point] = await groundAt(
      [middleOfOcean],
      [makeRaster({ ...base, frame: oneWay }, slopeToEast), fine],
    );
    expect(point).toMatchObject({ elevationM: 900, rasterIndex: 1 });
  });

  test('its outline takes part nowhere', async () => {
    const fine = makeRaster({ ...base, cellM: 5, frame: oneWay }, () => NaN);
    const coarse = makeRaster(base, slopeToEast);
    const [trace] = await slides([coarse, fine], -500);
    expect(trace?.lengthM).toBeGreaterThan(500);
  });
});

describe('lines at their limits', () => {
  test('a line without stations has an empty profile', async () => {
    expect(await profile([], [makeRaster(base, slopeToEast)])).toMatchObject({
      stations: [],
      lengthM: 0,
      notes: [],
    });
  });

  test('stations so close that a whole round has no slide of its own take those beside them', async () => {
    const raster = makeRaster(base, slopeToEast);
    const xs = Array.from({ length: 200 }, (_, i) => i / 100);
    const { stations } = await profile(stationsAt(raster, xs), [raster]);
    expect(stations.every(({ runOut }) => runOut?.K.class === stations[0]?.runOut?.K.class)).toBe(true);
  });

  test('between no slides there is none to take', () => expect(fillBetween([null], [true])).toEqual([null]));

  test('over a gap of more than 50 m nothing is said of the heights on either side', async () => {
    const beside = (x0: number, z: number, name: string) =>
      makeRaster(
        {
          widthPx: 20,
          heightPx: 20,
          cellM: 10,
          name,
          affine: { x0, y0: 100, colX: 10, colY: 0, rowX: 0, rowY: -10 },
        },
        () => z,
      );
    const [west, near, far] = [
      beside(-200, 1000, 'west'),
      beside(10, 1100, 'near'),
      beside(100, 1100, 'far'),
    ];
    const xs = Array.from({ length: 60 }, (_, i) => -150 + 5 * i);
    const seam = async (east: Raster) =>
      (await profile(stationsAt(west, xs), [west, east])).notes.filter(({ code }) => code === 'GROUND-003');
    expect(await seam(near)).toHaveLength(1); // level ground on both sides explains no step
    expect(await seam(far)).toEqual([]);
  });
});

describe('hazards', () => {
  const raster = makeRaster(base, slopeToEast);
  const at = (x: number, y: number): LngLat => raster.frame.toLngLat([x, y]);
  const endings = async (marks: Mark[]) =>
    (await slides([raster], -500, 'K', marks)).map(({ ending }) => ending);

  test('that lie elsewhere, nowhere, or where the raster cannot be, catch nobody', async () => {
    const none = await endings([]);
    expect(none).not.toContain('hazard');
    expect(await endings([hazard([at(50_000, 0)]), hazard([]), hazard([[NaN, NaN]])])).toEqual(none);
  });

  test('drawn all round a place, it is caught inside, far from the edge', async () => {
    const ring = [at(-900, -290), at(900, -290), at(900, 290), at(-900, 290), at(-900, -290)];
    expect(await endings([hazard(ring)])).toEqual(['hazard', 'hazard', 'hazard']);
  });

  test('a line drawn twice on one spot is a point', async () => {
    expect((await endings([hazard([at(0, 0), at(0, 0)])]))[0]).toBe('hazard');
  });
});

describe('slides', () => {
  test('over blocks of two rasters on their way, as over both in memory', async () => {
    const both = (isLazy: boolean) => [
      makeRaster({ ...base, isLazy, blockPx: 16 }, slopeToEast),
      makeRaster(
        {
          widthPx: 60,
          heightPx: 40,
          cellM: 4,
          isLazy,
          blockPx: 16,
          affine: { x0: -100, y0: 80, colX: 4, colY: 0, rowX: 0, rowY: -4 },
        },
        slopeToEast,
      ),
    ];
    expect(await slides(both(true), -400)).toEqual(await slides(both(false), -400));
    expect(await slides(both(true), 0)).toEqual(await slides(both(false), 0));
  });

  test('that never stop and never grow fast are given up after 50 km', async () => {
    const tan = defaultFigures.snow.F.muSliding.low + 5e-5;
    const endless = makeRaster({ widthPx: 1200, heightPx: 3, cellM: 50 }, (x) => 20_000 - x * tan);
    const [trace] = await slides([endless], -29_000, 'F');
    expect(trace).toMatchObject({ ending: 'far' });
    expect(trace!.lengthM).toBeGreaterThan(50_000);
    expect(trace!.maxSpeedMS).toBeLessThan(12);
    expect(hardnesses).toContain('F');
  });
});

describe('pictures', () => {
  const raster = makeRaster(base, slopeToEast);
  const tileOf = (z: number) => {
    const [lng, lat] = middleOfOcean;
    const y = (1 - Math.asinh(Math.tan((lat * Math.PI) / 180)) / Math.PI) / 2;
    return { z, x: Math.floor(((lng + 180) / 360) * 2 ** z), y: Math.floor(y * 2 ** z), sizePx: 64 };
  };

  test('from very far out none are drawn', async () => {
    for (const draw of [shadeTile, slopeTintTile, elevationTile])
      expect(await draw({ rasters: [raster], tile: tileOf(3) })).toBeNull();
  });

  test('slopes close up lie between four cells, the finer raster on top of the coarser', async () => {
    const fine = makeRaster({ widthPx: 40, heightPx: 40, cellM: 5 }, (x) => 1000 - x);
    const [a, b] = [
      await slopeTintTile({ rasters: [raster], tile: tileOf(17) }),
      await slopeTintTile({ rasters: [raster, fine], tile: tileOf(17) }),
    ];
    expect(a).not.toBeNull();
    expect(b).not.toEqual(a);
    const holed = makeRaster(base, (x, y) => (x > 0 && x < 12 && y > 0 && y < 12 ? NaN : slopeToEast(x)));
    expect(await slopeTintTile({ rasters: [holed], tile: tileOf(17) })).not.toEqual(a);
  });

  test('where nothing is known the ground in space is level, and goes on as it ended', () => {
    const known = (elevationsM: number[]) =>
      [...terrainPixels(Float32Array.from(elevationsM), 2)].filter((_, i) => i % 4 < 2);
    expect(known([NaN, NaN, NaN, NaN])).toEqual([128, 0, 128, 0, 128, 0, 128, 0]);
    expect(known([256, NaN, 256, NaN])).toEqual([129, 0, 129, 0, 129, 0, 129, 0]);
  });

  test('a coarser level of a raster whose blocks are let go at once is empty, not wrong', async () => {
    const gone = await coarsen(
      { ...raster, blockInMemory: () => null },
      { factor: 4, breathe: () => Promise.resolve() },
    );
    await gone.loadBlock(0, 0);
    expect(gone.blockInMemory(0, 0)!.every(Number.isNaN)).toBe(true);
    expect(gone.blockInMemory(99, 99)).toBeNull();
  });
});
