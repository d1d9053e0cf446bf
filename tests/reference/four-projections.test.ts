import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { defaultFigures } from '../../src/core/assumptions/figures';
import type { LngLat } from '../../src/core/domain/coordinates';
import type { Raster } from '../../src/core/domain/raster';
import type { GroundProfile } from '../../src/core/domain/station';
import { bufferSource } from '../../src/core/files/raster/byte-source';
import { openRaster } from '../../src/core/files/raster/open';
import { readGround } from '../../src/core/ground/read-ground';
import { makeStations } from '../../src/core/line/stations';
import { GdalReference } from './gdal';

/**
 * One glacier line on one ground, the ground warped by GDAL into four systems of quite different scale and turn against
 * north: UTM 32 (a degree and a half west of its meridian), degrees, web Mercator (stretched by 1.44 here) and a conic
 * one (EPSG:3034, turned by the longitude). Cells of about 3 m from a raster of 10 m by a smooth
 * spline, so that all four hold the same ground in full.
 *
 * Tolerance: slopes within 1 degree RMS of each other, since a station takes the slope of the cell that holds it and cells lie
 * differently in each; lengths within 0.1 %.
 */
const source = join(process.env['FIRNWARD_DATA'] ?? '/nowhere', 'dem/arolla_glacier_10m_lv95.tif');
const gdal = new GdalReference();
afterAll(() => {
  gdal.stop();
});

/** Up the middle of the glacier basin. */
const line: readonly LngLat[] = [
  [7.503, 45.985],
  [7.5105, 45.9795],
  [7.5205, 45.9725],
  [7.5245, 45.9675],
];

const systems = [
  { crs: 'EPSG:32632', cell: '3' },
  { crs: 'EPSG:4326', cell: '0.00003' },
  { crs: 'EPSG:3857', cell: '4.3' },
  { crs: 'EPSG:3034', cell: '3' },
];

async function read(crs: string, cell: string): Promise<GroundProfile> {
  const path = await gdal.warp(source, [
    '-t_srs',
    crs,
    '-tr',
    cell,
    cell,
    '-r',
    'cubicspline',
    '-ot',
    'Float32',
  ]);
  const opened = await openRaster(bufferSource(crs, new Uint8Array(readFileSync(path))));
  if (!opened.ok) throw new Error(opened.problem.title);
  return profile(opened.value);
}

const profile = (raster: Raster): Promise<GroundProfile> =>
  readGround({
    stations: makeStations(line, { stepM: 5, alsoAtM: [] }),
    rasters: [raster],
    marks: [],
    figures: defaultFigures,
    sigmaZM: [null],
    stepM: 5,
  });

describe.skipIf(!existsSync(source))('the same line on the same ground in four projections', () => {
  test('has the same slopes, aspects and length', async () => {
    const profiles = [];
    for (const { crs, cell } of systems) profiles.push(await read(crs, cell));
    for (let a = 0; a < profiles.length; a++) {
      for (let b = a + 1; b < profiles.length; b++) {
        const [one, two] = [profiles[a]!, profiles[b]!];
        const slopes = pairs(one, two, ({ slopeDeg }) => slopeDeg);
        expect(slopes.length).toBeGreaterThan(300);
        expect(rms(slopes.map(([x, y]) => x - y))).toBeLessThan(1);
        // Nor is one of them steeper than the other on the whole, as a wrong scale would make it.
        expect(Math.abs(mean(slopes.map(([x, y]) => x - y)))).toBeLessThan(0.1);
        const elevations = pairs(one, two, ({ elevationM }) => elevationM);
        expect(rms(elevations.map(([x, y]) => x - y))).toBeLessThan(0.5);
        const aspects = pairs(one, two, ({ aspectDeg, slopeDeg }) => (slopeDeg! > 10 ? aspectDeg : null));
        expect(Math.abs(mean(aspects.map(([x, y]) => turn(x - y))))).toBeLessThan(0.5);
        expect(Math.abs(one.lengthM / two.lengthM - 1)).toBeLessThan(0.001);
      }
    }
  }, 120_000);
});

function pairs(
  a: GroundProfile,
  b: GroundProfile,
  of: (station: GroundProfile['stations'][number]) => number | null,
): [number, number][] {
  return a.stations.flatMap((station, i): [number, number][] => {
    const [x, y] = [of(station), of(b.stations[i]!)];
    return x === null || y === null ? [] : [[x, y]];
  });
}

const turn = (deg: number): number => deg - 360 * Math.round(deg / 360);
const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
const rms = (values: readonly number[]): number => Math.sqrt(mean(values.map((value) => value * value)));
