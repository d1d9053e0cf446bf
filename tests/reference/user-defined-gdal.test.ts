import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import type { LngLat } from '../../src/core/domain/coordinates';
import { opened } from '../core/files/raster/read-whole';
import { writeTiff } from '../core/files/raster/write-tiff';
import { GdalReference } from './gdal';

/**
 * Systems without a code: GDAL writes them into GeoKeys as it does for anybody, we read the keys, and both say where on
 * Earth the raster lies. Every method that is read here, with datum shifts, feet, and bodies of other centuries.
 *
 * Tolerance: 2e-8 degrees, some 2 mm, at the corners of 16 km squares; there and back within a centimetre, since the shift to
 * another body goes without heights.
 */
const gdal = new GdalReference();
const folder = mkdtempSync(join(tmpdir(), 'systems-'));
afterAll(() => {
  gdal.stop();
  rmSync(folder, { recursive: true, force: true });
});

const bessel = '+ellps=bessel +towgs84=674.374,15.056,405.346';
const everest = '+a=6377298.556 +rf=300.8017 +towgs84=-679,669,-48';
const batavia = '+ellps=bessel +towgs84=-377,681,-50';
const clarke = '+ellps=clrk66 +towgs84=-8,160,176';
const airy = '+ellps=airy +towgs84=446.448,-125.157,542.06,0.15,0.247,0.842,-20.489';
const hayford = '+ellps=intl +towgs84=-87,-98,-121';

const systems: readonly (readonly [name: string, proj: string, near: LngLat])[] = [
  ['transverse Mercator', `+proj=tmerc +lat_0=0 +lon_0=8.1 +k=0.9999 +x_0=500000 ${hayford}`, [8.2, 46.5]],
  ['transverse Mercator on WGS 84', '+proj=tmerc +lat_0=40 +lon_0=7.5 +datum=WGS84', [8.2, 46.5]],
  ['UTM, north', '+proj=utm +zone=32 +datum=WGS84', [8.2, 46.5]],
  ['UTM, south', '+proj=utm +zone=19 +south +datum=WGS84', [-69.5, -33]],
  ['UTM on ETRS89', '+proj=utm +zone=32 +ellps=GRS80 +towgs84=0,0,0', [8.2, 46.5]],
  ['UTM on another datum', `+proj=utm +zone=32 ${hayford}`, [8.2, 46.5]],
  ['oblique Mercator', `+proj=omerc +lat_0=4 +lonc=115 +alpha=53 +gamma=53 +k=0.99984 +x_0=590476 +y_0=442857 ${everest}`, [115.2, 4.5]],
  ['oblique Mercator from its natural origin', `+proj=omerc +no_uoff +lat_0=57 +lonc=-133 +alpha=-36 +gamma=-36 +k=0.9999 +x_0=5000000 +y_0=-5000000 ${clarke}`, [-134.4, 58.3]],
  ['Swiss oblique Mercator', `+proj=somerc +lat_0=46.952 +lon_0=7.4395 +k_0=1 +x_0=600000 +y_0=200000 ${bessel}`, [7.5, 45.98]],
  ['Lambert, two parallels', `+proj=lcc +lat_0=52 +lon_0=10 +lat_1=35 +lat_2=65 +x_0=4000000 +y_0=2800000 ${hayford}`, [8.2, 46.5]],
  ['Lambert, one parallel', `+proj=lcc +lat_0=46.8 +lat_1=46.8 +lon_0=2.3 +k_0=0.99987742 +x_0=600000 +y_0=2200000 ${hayford}`, [6.9, 45.8]],
  ['Lambert in US feet', '+proj=lcc +lat_0=37.6 +lon_0=-122 +lat_1=39.8 +lat_2=38.3 +x_0=2000000 +y_0=500000 +ellps=GRS80 +towgs84=0,0,0 +units=us-ft', [-121.3, 39.2]],
  ['Lambert in metres of its own', '+proj=lcc +lat_0=37.6 +lon_0=-122 +lat_1=39.8 +lat_2=38.3 +datum=WGS84 +to_meter=0.9', [-121.3, 39.2]],
  ['Albers', `+proj=aea +lat_0=45 +lon_0=-126 +lat_1=50 +lat_2=58.5 +x_0=1000000 ${clarke}`, [-119.8, 49.1]],
  ['equidistant conic', `+proj=eqdc +lat_0=40 +lon_0=-96 +lat_1=20 +lat_2=60 ${clarke}`, [-105, 40]],
  ['Lambert azimuthal equal area', `+proj=laea +lat_0=52 +lon_0=10 +x_0=4321000 +y_0=3210000 ${hayford}`, [8.2, 46.5]],
  ['azimuthal equidistant', '+proj=aeqd +lat_0=46 +lon_0=8 +x_0=1000 +datum=WGS84', [8.2, 46.5]],
  ['polar stereographic, true at a latitude', '+proj=stere +lat_0=-90 +lat_ts=-71 +lon_0=0 +datum=WGS84', [-87, -73]],
  ['polar stereographic, by scale', `+proj=stere +lat_0=90 +lon_0=33 +k=0.994 +x_0=2000000 +y_0=2000000 ${hayford}`, [16, 78.5]],
  ['stereographic', '+proj=stere +lat_0=47 +lon_0=25 +k=0.9997 +x_0=500000 +datum=WGS84', [25.3, 46.5]],
  ['oblique stereographic', `+proj=sterea +lat_0=52.15616 +lon_0=5.38764 +k=0.9999079 +x_0=155000 +y_0=463000 ${bessel}`, [5.6, 52.3]],
  ['Mercator by scale', `+proj=merc +lon_0=110 +k=0.997 +x_0=3900000 +y_0=900000 ${batavia}`, [116, -8.4]],
  ['Mercator true at a latitude', `+proj=merc +lon_0=51 +lat_ts=42 ${hayford}`, [51.3, 42.4]],
  ['Cassini-Soldner', `+proj=cass +lat_0=10.44 +lon_0=-61.33 +x_0=86501 +y_0=65379 ${clarke}`, [-61.2, 10.6]],
  ['polyconic', '+proj=poly +lat_0=0 +lon_0=-54 +x_0=5000000 +y_0=10000000 +ellps=aust_SA +towgs84=-57,1,-41', [-52, -22]],
  ['New Zealand map grid', '+proj=nzmg +lat_0=-41 +lon_0=173 +x_0=2510000 +y_0=6023150 +ellps=intl +towgs84=84,-22,209', [170.1, -43.6]],
  ['cylindrical equal area', '+proj=cea +lon_0=0 +lat_ts=30 +datum=WGS84', [8.2, 46.5]],
  ['sinusoidal', '+proj=sinu +lon_0=8 +datum=WGS84', [8.2, 46.5]],
  ['longitude and latitude on another datum', `+proj=longlat ${airy}`, [-4.9, 56.8]],
  ['longitude from another meridian', `+proj=longlat ${hayford} +pm=2.337229167`, [4.5, 45.8]],
]; // prettier-ignore

describe('user-defined systems lie where GDAL says', () => {
  test.for(systems)('%s', async ([name, proj, near], { skip }) => {
    const [middle] = (await gdal.fromLngLat(proj, [near])) ?? [];
    if (middle === undefined)
      return skip('no gdaltransform here, and the WebAssembly build lacks this datum');
    const isDegrees = proj.includes('longlat');
    const reach = isDegrees ? 0.1 : 8000;
    const [x, y] = middle;
    const plain = join(folder, 'plain.tif');
    writeFileSync(
      plain,
      writeTiff({ widthPx: 4, heightPx: 4, cells: Array.from({ length: 16 }, (_, i) => i) }),
    );
    const corners = [x - reach, y + reach, x + reach, y - reach] as const;
    const written = await gdal.translate(plain, ['-a_srs', proj, '-a_ullr', ...corners.map(String)]);
    const raster = await opened(new Uint8Array(readFileSync(written)), { elevationUnit: 'm' }, `${name}.tif`);
    expect(raster.frame.isGeographic).toBe(isDegrees);

    const places = [
      middle,
      [corners[0], corners[1]],
      [corners[2], corners[1]],
      [corners[2], corners[3]],
    ] as const;
    const theirs = await gdal.toLngLat(proj, places);
    places.forEach((place, i) => {
      const [lngDeg, latDeg] = raster.frame.toLngLat([place[0], place[1]]);
      const [theirLng = NaN, theirLat = NaN] = theirs?.[i] ?? [];
      expect(Math.abs(lngDeg - theirLng) * Math.cos((latDeg * Math.PI) / 180)).toBeLessThan(2e-8);
      expect(Math.abs(latDeg - theirLat)).toBeLessThan(2e-8);
      const [backX, backY] = raster.frame.fromLngLat([lngDeg, latDeg]);
      expect(Math.hypot(backX - place[0], backY - place[1])).toBeLessThan(isDegrees ? 1e-7 : 0.01);
    });
  });
});
