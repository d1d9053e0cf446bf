import type { Raster } from '../../domain/raster';
import { readAscGrid } from './asc-grid';
import { ask, chosenSystem } from './crs/crs-of-raster';
import { makeFrame } from './crs/frame';
import { settle } from './crs/settle';
import { toMetres } from './cell-meaning';
import { metresPer } from './elevation-unit';
import { gridRaster } from './grid-raster';
import type { GuardedReader } from './guarded-reader';
import { limits } from './limits';
import type { RasterOptions } from './raster-options';
import { RasterNotes } from './raster-notes';
import { refuse } from './refusal';
import { SurveyBook } from './survey';
import { weigh } from './weigh';

const blockPx = 256;

/** Whether the first bytes are those of an ESRI ASCII grid. */
export const isAscHead = (head: string) => /^\uFEFF?\s*(ncols|nrows|xll(corner|center))\s/i.test(head);

/** Opens an ESRI ASCII grid. The format says neither its coordinate system nor its unit: both may be asked for. */
export async function openAsc(
  reader: GuardedReader,
  options: RasterOptions,
  checksum: string | null,
): Promise<Raster> {
  const { name, sizeBytes } = reader;
  if (sizeBytes > limits.textBytes)
    refuse(
      'TIF-005',
      name,
      null,
      `has ${Math.round(sizeBytes / 2 ** 20)} MB of text, more than is read at once`,
      {
        remedy: 'Rewrite it as a GeoTIFF: gdal_translate IN.asc OUT.tif',
      },
    );
  const grid = readAscGrid(name, await reader.bytes(0, sizeBytes, 'text'));
  const { widthPx, heightPx, affine, cells } = grid;
  const notes = new RasterNotes(name);
  const system = options.crs === undefined ? ask(name) : await chosenSystem(name, options.crs);
  const placed = { name, affine, widthPx, heightPx };
  const crs = settle(system, placed, notes);
  const frame = makeFrame(crs, crs.isGeographic ? affine.x0 + (widthPx / 2) * affine.colX : 0);
  const chosen = options.elevationUnit;
  const meaning = { nodata: grid.nodata, scale: 1, offset: 0, metresPerUnit: metresPer[chosen ?? 'm'] };
  const book = new SurveyBook(meaning, { keepApart: Math.max(1, Math.floor(cells.length / 100_000)) });
  book.add(cells);
  weigh(
    {
      grid: { ...placed, frame },
      crs,
      survey: book.close(true),
      meaning,
      stated: null,
      heightsFrom: null,
      chosen,
      isWholeCells: false,
    },
    notes,
  );
  notes.unsaid(toMetres(cells, meaning));
  return gridRaster({
    ...placed,
    frame,
    surveyed: null,
    heightsFrom: null,
    encoding: 'text, asc',
    checksum,
    notes: notes.list,
    blockPx,
    overviews: [],
    readBlock: (blockCol, blockRow) => {
      const block = new Float64Array(blockPx * blockPx).fill(NaN);
      const left = blockCol * blockPx;
      const right = Math.min(widthPx, left + blockPx);
      for (let row = blockRow * blockPx; row < Math.min(heightPx, (blockRow + 1) * blockPx); row++)
        block.set(
          cells.subarray(row * widthPx + left, row * widthPx + right),
          (row - blockRow * blockPx) * blockPx,
        );
      return Promise.resolve(block);
    },
  });
}
