import type { CellMeaning } from '../cell-meaning';
import type { CellWindow } from '../../../domain/raster';
import { SurveyBook, type Survey } from '../survey';
import type { StoredCells } from './decode-chunk';
import type { PictureCells } from './picture-cells';

/** As many cells as are decoded before a raster is used: a fraction of a second's work. */
const enoughCells = 1_000_000;
/** As many of them tell its range. */
const keptCells = 20_000;
const fewestChunks = 3;
const mostChunks = 24;
/** So many tiles or strips that hold data are enough, on a large picture, to know its range. */
const tellingChunks = 6;
/** As many cells of each, where they can be had without the rest of it. */
const cellsOfChunk = 16_384;

/**
 * Looks at the whole picture when it is small, else at tiles or strips spread evenly over it. Where the file has
 * overviews, the caller hands in a small one: they lie together at its beginning.
 */
export async function surveyPicture(
  cells: PictureCells,
  masks: readonly PictureCells[],
  meaning: CellMeaning,
): Promise<Survey> {
  const { widthPx, heightPx, chunkWidthPx, chunkHeightPx, chunksAcross, chunksDown } = cells.index.picture;
  const chunks = chunksAcross * chunksDown;
  const perChunk = chunkWidthPx * chunkHeightPx;
  const isWhole = widthPx * heightPx <= enoughCells;
  const wanted = Math.max(fewestChunks, Math.min(mostChunks, Math.floor(enoughCells / perChunk)));
  const count = isWhole ? chunks : Math.min(chunks, wanted);
  const topRows = isWhole ? chunkHeightPx : Math.min(chunkHeightPx, Math.ceil(cellsOfChunk / chunkWidthPx));
  // Odd, so that it goes through the columns of a tile by turns.
  const apart = Math.floor((count * topRows * chunkWidthPx) / keptCells) | 1;
  const book = new SurveyBook(meaning, isWhole ? { keepApart: apart } : { lookApart: apart });
  let telling = 0;
  for (let i = 0; i < count && (isWhole || telling < tellingChunks); i++) {
    const chunk = Math.floor(((spread(i, count) + 0.5) * chunks) / count);
    const before = book.known;
    await look(chunk, { cells, masks, topRows }, book);
    if (book.known > before) telling++;
  }
  return book.close(isWhole);
}

interface Looked {
  readonly cells: PictureCells;
  readonly masks: readonly PictureCells[];
  /** So many rows from the top of a tile or strip will do, where they hold data. */
  readonly topRows: number;
}

async function look(chunk: number, { cells, masks, topRows }: Looked, book: SurveyBook): Promise<void> {
  const { widthPx, heightPx, chunkWidthPx, chunkHeightPx, chunksAcross } = cells.index.picture;
  const col = (chunk % chunksAcross) * chunkWidthPx;
  const row = Math.floor(chunk / chunksAcross) * chunkHeightPx;
  const hasTop = masks.length === 0 && topRows < chunkHeightPx && col + chunkWidthPx <= widthPx;
  const top = hasTop ? await cells.top(chunk, Math.min(topRows, heightPx - row)) : null;
  const before = book.known;
  if (top !== null) book.add(top);
  if (book.known > before) return;
  const window = {
    col,
    row,
    widthPx: Math.min(chunkWidthPx, widthPx - col),
    heightPx: Math.min(chunkHeightPx, heightPx - row, Math.ceil(enoughCells / chunkWidthPx)),
  };
  const stored = await cellsIn(window, cells);
  for (const mask of masks) await maskOut(stored, mask, window);
  book.add(stored.subarray(top?.length ?? 0));
}

/** The same numbers in another order, the first few of which already lie all over: steps of the golden ratio. */
function spread(i: number, count: number): number {
  let step = Math.max(1, Math.round(count * 0.618));
  while (commonDivisor(step, count) > 1) step--;
  return (i * step) % count;
}

const commonDivisor = (a: number, b: number): number => (b === 0 ? a : commonDivisor(b, a % b));

async function cellsIn(window: CellWindow, cells: PictureCells): Promise<StoredCells> {
  const tile = await cells.tile(window);
  if (tile !== null) return tile;
  const stored = new Float64Array(window.widthPx * window.heightPx).fill(NaN);
  await cells.copy(window, stored, window.widthPx);
  return stored;
}

async function maskOut(stored: StoredCells, mask: PictureCells, window: CellWindow): Promise<void> {
  const isStored = new Float32Array(stored.length);
  await mask.copy(window, isStored, window.widthPx);
  for (let i = 0; i < stored.length; i++) if (isStored[i] === 0) stored[i] = NaN;
}
