import { fromArrayBuffer } from 'geotiff';
import { ProblemError, type Raster } from '../../src/core/domain/raster';
import { bufferSource } from '../../src/core/files/raster/byte-source';
import { openRaster } from '../../src/core/files/raster/open';
import { readWhole } from '../core/files/raster/read-whole';
import type { RasterFile } from './grid-mutate';
import { secondAsc, secondHgt, type SecondGrid } from './second-grids';

export type Verdict =
  | { readonly kind: 'refused' }
  | { readonly kind: 'accepted'; readonly isCompared: boolean }
  | { readonly kind: 'untyped' | 'differs'; readonly why: string };

/** More cells than any seed has: a changed file that claims them is opened, but not read through. */
const mostCells = 2_000_000;

/** Opens a file and reads it through; what is accepted is compared with another reader's cells and place. */
export async function judgeRaster({ name, bytes }: RasterFile): Promise<Verdict> {
  let raster: Raster;
  let cells: Float64Array;
  try {
    // A grid of text names no system.
    const options = name.endsWith('.asc') ? { crs: 'EPSG:32632' } : {};
    const result = await openRaster(bufferSource(name, bytes), options);
    if (!result.ok) return typed(result.problem.code);
    raster = result.value;
    if (raster.widthPx * raster.heightPx > mostCells) return { kind: 'accepted', isCompared: false };
    cells = await readWhole(raster);
  } catch (cause) {
    if (cause instanceof ProblemError) return typed(cause.problem.code);
    return { kind: 'untyped', why: cause instanceof Error ? (cause.stack ?? cause.message) : String(cause) };
  }
  const theirs = await secondReading(name, bytes).catch(() => null);
  if (theirs === null) return { kind: 'accepted', isCompared: false };
  const why = difference(raster, cells, theirs);
  return why === null ? { kind: 'accepted', isCompared: true } : { kind: 'differs', why };
}

function typed(code: string): Verdict {
  return /^(TIF|CRS|UNIT|HGT|ASC|SRC)-\d{3}$/.test(code)
    ? { kind: 'refused' }
    : { kind: 'untyped', why: code };
}

interface SecondReading extends SecondGrid {
  readonly scale: number;
  readonly offset: number;
  /** Holes may come from elsewhere: a mask, or a part of the file that is not there. */
  readonly mayHide: boolean;
}

async function secondReading(name: string, bytes: Uint8Array): Promise<SecondReading | null> {
  if (!name.endsWith('.tif')) {
    const grid = name.endsWith('.asc') ? secondAsc(bytes) : secondHgt(name, bytes);
    return grid && { ...grid, scale: 1, offset: 0, mayHide: false };
  }
  return secondTiff(bytes);
}

async function secondTiff(bytes: Uint8Array): Promise<SecondReading | null> {
  const tiff = await fromArrayBuffer(bytes.slice().buffer);
  const image = await tiff.getImage(0);
  const { fileDirectory: directory } = image;
  const numbers = (
    tag:
      | 'BitsPerSample'
      | 'Predictor'
      | 'FillOrder'
      | 'StripByteCounts'
      | 'StripOffsets'
      | 'ModelTiepoint'
      | 'ModelTransformation',
  ): number[] => {
    if (!directory.hasTag(tag)) return [];
    const value: unknown = directory.getValue(tag as 'ModelTiepoint');
    return typeof value === 'number' ? [value] : Array.from(value as ArrayLike<number>);
  };
  // It takes the count of bits for the count of bands; libtiff does not.
  if (numbers('BitsPerSample').length !== image.getSamplesPerPixel()) return null;
  // Known to go wrong there: predictor 2 in big-endian files.
  if ((numbers('Predictor')[0] ?? 1) !== 1 || (numbers('FillOrder')[0] ?? 1) !== 1) return null;
  const [stored] = (await image.readRasters({ samples: [0] })) as unknown as [ArrayLike<number>];
  const metadata = (await image.getGDALMetadata(0)) ?? {};
  const origin = image.getOrigin();
  const resolution = image.getResolution();
  // It leaves out the tie point's own column and row, the half cell of points, and which way a matrix runs.
  const matrix = numbers('ModelTransformation');
  const ties = numbers('ModelTiepoint');
  const half = image.pixelIsArea() ? 0 : 0.5;
  const isMatrix = matrix.length >= 16;
  const cell = isMatrix
    ? ([matrix[0] ?? NaN, matrix[5] ?? NaN] as const)
    : ([resolution[0] ?? NaN, resolution[1] ?? NaN] as const);
  const shiftCols = (isMatrix ? 0 : (ties[0] ?? 0)) + half;
  const shiftRows = (isMatrix ? 0 : (ties[1] ?? 0)) + half;
  if (![...cell, ...origin].every(Number.isFinite)) return null;
  return {
    widthPx: image.getWidth(),
    heightPx: image.getHeight(),
    stored,
    scale: Number(metadata['SCALE'] ?? 1),
    offset: Number(metadata['OFFSET'] ?? 0),
    nodata: image.getGDALNoData(),
    // A mask; or a strip that the file says it does not hold (sparse).
    mayHide:
      (await tiff.getImageCount()) > 1 ||
      [...numbers('StripByteCounts'), ...numbers('StripOffsets')].includes(0),
    corner: [(origin[0] ?? NaN) - shiftCols * cell[0], (origin[1] ?? NaN) - shiftRows * cell[1]],
    cell,
  };
}

/** What a cell may be called missing for: its number, or one that no land has. 0 is how others fill what a file lacks. */
function mayBeMissing(stored: number, expected: number, { nodata }: SecondReading): boolean {
  const isNodata = nodata !== null && Math.fround(stored) === Math.fround(nodata);
  const isCustom = [0, -9999, -32768, -32767, -99999].includes(stored);
  return isNodata || isCustom || !(expected >= -500 && expected <= 9000);
}

/** What differs, in words; null: nothing. */
function difference(raster: Raster, cells: Float64Array, theirs: SecondReading): string | null {
  const { widthPx, heightPx, affine } = raster;
  if (widthPx !== theirs.widthPx || heightPx !== theirs.heightPx) return `size ${widthPx} x ${heightPx}`;
  const north = theirs.cell[1] < 0 ? theirs.corner[1] : theirs.corner[1] + heightPx * theirs.cell[1];
  const west = theirs.cell[0] > 0 ? theirs.corner[0] : theirs.corner[0] + widthPx * theirs.cell[0];
  const near = (a: number, b: number, unit: number) =>
    Math.abs(a - b) <= 1e-6 * Math.abs(unit) + 1e-12 * Math.abs(b);
  if (!near(affine.x0, west, affine.colX) || !near(affine.y0, north, affine.rowY))
    return `corner ${affine.x0}, ${affine.y0}; another reader: ${west}, ${north}`;
  // Strips that end beyond the file are missing, and that is said; another reader takes what there is of them.
  const isCutOff = raster.notes.some(({ code }) => code === 'TIF-103');
  for (let i = 0; i < cells.length; i++) {
    const ours = cells[i] ?? NaN;
    const row = theirs.cell[1] < 0 ? Math.floor(i / widthPx) : heightPx - 1 - Math.floor(i / widthPx);
    const col = theirs.cell[0] > 0 ? i % widthPx : widthPx - 1 - (i % widthPx);
    const stored = theirs.stored[row * widthPx + col] ?? NaN;
    const expected = stored * theirs.scale + theirs.offset;
    if (Number.isNaN(ours)) {
      if (theirs.mayHide || isCutOff || mayBeMissing(stored, expected, theirs)) continue;
      return `cell ${col}, ${row} is missing; another reader: ${expected}`;
    }
    if (!(Math.abs(ours - expected) <= 1e-6 * Math.abs(expected) + 1e-9))
      return `cell ${col}, ${row} is ${ours}; another reader: ${expected}`;
  }
  return null;
}
