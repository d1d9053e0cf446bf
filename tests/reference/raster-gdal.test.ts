import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { cellOf } from '../../src/core/domain/raster';
import type { RasterOptions } from '../../src/core/files/raster/open';
import { opened, readWhole } from '../core/files/raster/read-whole';
import { GdalReference } from './gdal';

/**
 * Every cell of every raster and encoding against GDAL's own reading: the same value (scale, offset and unit applied), holes
 * exactly where GDAL's mask has holes, and the raster's corners at the same places on Earth.
 *
 * Tolerances: cells as stored equal GDAL's exactly; scaled ones and feet within 1e-9 of their size. Places within a
 * hundredth of a cell of gdaltransform's.
 */
const folder = join(process.env['FIRNWARD_DATA'] ?? '/nowhere', 'dem');
const listed = (path: string) =>
  existsSync(path)
    ? readdirSync(path)
        .filter((name) => name.endsWith('.tif'))
        .map((name) => join(path, name))
    : [];
const files = [...listed(folder), ...listed(join(folder, 'encodings'))];

/** What the files do not say of themselves (data's own description); metres per unit of what GDAL reads. */
const said: Readonly<Record<string, { options: RasterOptions; unitM: number }>> = {
  'yuba_river_3ft_state_plane_ft.tif': { options: { elevationUnit: 'usft' }, unitM: 1200 / 3937 },
  'iowa_3m_centimetres_uint16.tif': { options: { elevationUnit: 'cm' }, unitM: 0.01 },
  'arolla_unit_feet.tif': { options: {}, unitM: 0.3048 },
  'georef_tie_point_and_pixel_scale_pixel_is_area.tif': { options: { elevationUnit: 'm' }, unitM: 1 },
  'georef_tie_point_and_pixel_scale_pixel_is_point.tif': { options: { elevationUnit: 'm' }, unitM: 1 },
};

/** Codecs the WebAssembly build lacks: the data's own description says their cells are those of this file. */
const sameCells: Readonly<Record<string, string>> = {
  'arolla_lerc_deflate.tif': 'arolla_none_strips.tif',
  'arolla_lerc_lossless.tif': 'arolla_none_strips.tif',
  'arolla_zstd_pred3.tif': 'arolla_none_strips.tif',
};

const gdal = new GdalReference();
afterAll(() => {
  gdal.stop();
});

describe.skipIf(files.length === 0)(`cells and corners against GDAL on ${files.length} rasters`, () => {
  test.for(files)('%s', async (path) => {
    const name = basename(path);
    const { options, unitM } = said[name] ?? { options: {}, unitM: 1 };
    const raster = await opened(new Uint8Array(readFileSync(path)), options, name);
    const theirs = await gdal.readCells(join(dirname(path), sameCells[name] ?? name));
    expect([raster.widthPx, raster.heightPx]).toEqual([theirs.widthPx, theirs.heightPx]);
    const cells = await readWhole(raster);
    let different = 0;
    for (let i = 0; i < cells.length; i++) {
      const ours = cells[i] ?? NaN;
      const expected = (theirs.z[i] ?? NaN) * unitM;
      if (Number.isNaN(ours) && Number.isNaN(expected)) continue;
      const isScaled = unitM !== 1 || name.includes('scale_offset');
      if (!(isScaled ? Math.abs(ours - expected) <= 1e-9 * Math.abs(expected) : ours === expected))
        different++;
    }
    expect(different).toBe(0);

    const corners = [
      [0, 0],
      [raster.widthPx, 0],
      [0, raster.heightPx],
      [raster.widthPx, raster.heightPx],
      [raster.widthPx / 2, raster.heightPx / 2],
    ] as const;
    const [x0 = NaN, colX = NaN, , y0 = NaN, , rowY = NaN] = theirs.transform;
    const places = await gdal.toLngLat(
      theirs.wkt,
      corners.map(([col, row]) => [x0 + col * colX, y0 + row * rowY]),
    );
    places?.forEach((place, i) => {
      const [col, row] = cellOf(raster.affine, raster.frame.fromLngLat(place));
      const [theirCol = NaN, theirRow = NaN] = corners[i] ?? [];
      expect(Math.hypot(col - theirCol, row - theirRow)).toBeLessThan(0.01);
    });
  });
});
