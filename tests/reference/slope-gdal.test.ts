import geographiclib from 'geographiclib-geodesic';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import type { LngLat } from '../../src/core/domain/coordinates';
import { bufferSource } from '../../src/core/files/raster/byte-source';
import { openRaster, type RasterOptions } from '../../src/core/files/raster/open';
import { cellOfPosition } from '../../src/core/ground/ground-scale';
import { groundAt } from '../../src/core/ground/ground-at';
import { GdalReference, type GdalRaster } from './gdal';

/**
 * Elevation, slope and aspect on real rasters against GDAL: its own reading of the cells, its own Horn gradient, its own
 * way from the raster's system to longitude and latitude. The gradient is brought to ground metres and true north here by
 * geodesics of GeographicLib (Karney 2013) to the neighbourhood of each cell.
 *
 * Tolerances: elevation 0.05 m and slope 0.05 degrees at 99 % of random points, position within a tenth of a cell (what
 * is met is far closer: GDAL keeps slopes as float32, and our own scale is a difference over some 100 m); holes exactly where
 * GDAL has holes.
 */
const folder = join(process.env['FIRNWARD_DATA'] ?? '/nowhere', 'dem');
const files = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('.tif')) : [];

/** What the files do not say of themselves (data's own description), and what one unit is in metres. */
const said: Readonly<Record<string, { options: RasterOptions; unitM: number }>> = {
  'yuba_river_3ft_state_plane_ft.tif': { options: { elevationUnit: 'usft' }, unitM: 1200 / 3937 },
  'iowa_3m_centimetres_uint16.tif': { options: { elevationUnit: 'cm' }, unitM: 0.01 },
};

const pointCount = 400;
const gdal = new GdalReference();
afterAll(() => {
  gdal.stop();
});

describe.skipIf(files.length === 0)(`ground against GDAL on ${String(files.length)} rasters`, () => {
  test.for(files)('%s', async (name, { skip }) => {
    const path = join(folder, name);
    const { options, unitM } = said[name] ?? { options: {}, unitM: 1 };
    const opened = await openRaster(bufferSource(name, new Uint8Array(readFileSync(path))), options);
    if (!opened.ok) throw new Error(`${name}: ${opened.problem.title}`);
    const raster = opened.value;
    const theirs = await gdal.read(path);
    expect([raster.widthPx, raster.heightPx]).toEqual([theirs.widthPx, theirs.heightPx]);

    const cells = randomCells(theirs, pointCount);
    const lngLats = await gdal.toLngLat(
      theirs.wkt,
      cells.map(([col, row]) => mapXY(theirs, col, row)),
    );
    const gradients = await trueGradients(theirs, cells);
    if (lngLats === null || gradients === null) {
      return skip('no gdaltransform here, and the WebAssembly build lacks this datum');
    }
    const ours = await groundAt(lngLats, [raster]);

    let known = 0;
    let elevationOff = 0;
    let slopeOff = 0;
    let aspectOff = 0;
    let wrongHoles = 0;
    let worstCells = 0;
    cells.forEach(([col, row], i) => {
      const [c, r] = cellOfPosition(raster, lngLats[i]!);
      worstCells = Math.max(worstCells, Math.hypot(c - col, r - row));
      const elevationM = bilinear(theirs, col, row) * unitM;
      const { east, north } = gradients[i]!;
      const slopeDeg = degrees(Math.atan(Math.hypot(east, north) * unitM));
      const point = ours[i]!;
      if (Number.isNaN(elevationM) !== (point.elevationM === null)) wrongHoles++;
      if (Number.isNaN(slopeDeg) !== (point.slopeDeg === null)) wrongHoles++;
      if (point.elevationM === null || point.slopeDeg === null) return;
      known++;
      if (!(Math.abs(point.elevationM - elevationM) <= 0.05)) elevationOff++;
      if (!(Math.abs(point.slopeDeg - slopeDeg) <= 0.05)) slopeOff++;
      if (slopeDeg > 1) {
        const aspectDeg = degrees(Math.atan2(-east, -north));
        if (!(Math.abs(turn(point.aspectDeg! - aspectDeg)) <= 0.1)) aspectOff++;
      }
    });
    expect(known).toBeGreaterThan(50);
    expect(worstCells, 'cells off').toBeLessThan(0.1);
    expect(wrongHoles, 'holes that are not where GDAL has them').toBe(0);
    expect(elevationOff / known, 'elevations off by over 0.05 m').toBeLessThanOrEqual(0.01);
    expect(slopeOff / known, 'slopes off by over 0.05 degrees').toBeLessThanOrEqual(0.01);
    expect(aspectOff / known, 'aspects off by over 0.1 degrees').toBeLessThanOrEqual(0.01);
  });
});

const degrees = (radians: number): number => (radians * 180) / Math.PI;
const turn = (deg: number): number => deg - 360 * Math.round(deg / 360);

/** Fractional cells away from the rim, half of them where there is data, always the same for one raster. */
function randomCells({ widthPx, heightPx, z }: GdalRaster, count: number): [number, number][] {
  let state = widthPx * 7919 + heightPx;
  const random = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  const cells: [number, number][] = [];
  for (let tries = 0; cells.length < count && tries < 100 * count; tries++) {
    const col = 2 + random() * (widthPx - 4);
    const row = 2 + random() * (heightPx - 4);
    // Not on the very line between two cells, or two centres, where a micrometre decides which is meant.
    if (Math.min(...[col, row].map((at) => Math.abs(at * 2 - Math.round(at * 2)))) < 1e-3) continue;
    const isData = !Number.isNaN(z[Math.floor(row) * widthPx + Math.floor(col)]!);
    if (isData || cells.length % 2 === 0) cells.push([col, row]);
  }
  return cells;
}

function mapXY({ transform: t }: GdalRaster, col: number, row: number): [number, number] {
  return [t[0]! + col * t[1]! + row * t[2]!, t[3]! + col * t[4]! + row * t[5]!];
}

/** From cell centre to cell centre; NaN when one of the four is missing. */
function bilinear({ widthPx, z }: GdalRaster, col: number, row: number): number {
  const c = Math.floor(col - 0.5);
  const r = Math.floor(row - 0.5);
  const [u, v] = [col - 0.5 - c, row - 0.5 - r];
  const at = (dCol: number, dRow: number): number => z[(r + dRow) * widthPx + c + dCol]!;
  const north = at(0, 0) + u * (at(1, 0) - at(0, 0));
  const south = at(0, 1) + u * (at(1, 1) - at(0, 1));
  return north + v * (south - north);
}

/** GDAL's Horn gradient of the cell that holds each place, in rise per metre to true east and north. */
async function trueGradients(
  raster: GdalRaster,
  cells: readonly (readonly [number, number])[],
): Promise<{ east: number; north: number }[] | null> {
  const { transform: t, wkt } = raster;
  const centres = cells.map(([col, row]) => mapXY(raster, Math.floor(col) + 0.5, Math.floor(row) + 0.5));
  const half = 0.5;
  const around = centres.flatMap(([x, y]): [number, number][] => [
    [x, y],
    [x - half * t[1]!, y],
    [x + half * t[1]!, y],
    [x, y - half * t[5]!],
    [x, y + half * t[5]!],
  ]);
  const lngLats = await gdal.toLngLat(wkt, around);
  if (lngLats === null) return null;
  return cells.map(([col, row], i) => {
    const [here, west, east, north, south] = [0, 1, 2, 3, 4].map((k): LngLat => lngLats[5 * i + k]!) as Five;
    // Ground metres for one map unit along x and along y.
    const [xE, xN] = apart(here, west, east).map((m) => m / t[1]!) as [number, number];
    const [yE, yN] = apart(here, north, south).map((m) => m / t[5]!) as [number, number];
    const det = xE * yN - xN * yE;
    const at = Math.floor(row) * raster.widthPx + Math.floor(col);
    const [riseX, riseY] = [raster.riseX[at]!, raster.riseY[at]!];
    return { east: (riseX * yN - riseY * xN) / det, north: (riseY * xE - riseX * yE) / det };
  });
}

type Five = [LngLat, LngLat, LngLat, LngLat, LngLat];

/** Metres to the east and north from a to b, both close to here. */
function apart(here: LngLat, a: LngLat, b: LngLat): [number, number] {
  const [aE, aN] = eastNorth(here, a);
  const [bE, bN] = eastNorth(here, b);
  return [bE - aE, bN - aN];
}

function eastNorth([lng0, lat0]: LngLat, [lng1, lat1]: LngLat): [number, number] {
  const { s12 = NaN, azi1 = NaN } = geographiclib.Geodesic.WGS84.Inverse(lat0, lng0, lat1, lng1);
  return [s12 * Math.sin((azi1 * Math.PI) / 180), s12 * Math.cos((azi1 * Math.PI) / 180)];
}
