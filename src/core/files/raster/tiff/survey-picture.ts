import type { CellMeaning } from '../cell-meaning';
import type { CellWindow } from '../../../domain/raster';
import { SurveyBook, type Survey } from '../survey';
import type { PictureCells } from './picture-cells';

/** As many cells as are looked at before a raster is used: a fraction of a second's work. */
const enoughCells = 1_000_000;
const keptCells = 100_000;
const fewestChunks = 3;
const mostChunks = 24;

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
  const step = Math.max(1, Math.floor((count * perChunk) / keptCells));
  const book = new SurveyBook(meaning);
  for (let i = 0; i < count; i++) {
    const chunk = Math.floor(((i + 0.5) * chunks) / count);
    const col = (chunk % chunksAcross) * chunkWidthPx;
    const row = Math.floor(chunk / chunksAcross) * chunkHeightPx;
    const window = {
      col,
      row,
      widthPx: Math.min(chunkWidthPx, widthPx - col),
      heightPx: Math.min(chunkHeightPx, heightPx - row, Math.ceil(enoughCells / chunkWidthPx)),
    };
    const stored = new Float64Array(window.widthPx * window.heightPx).fill(NaN);
    await cells.copy(window, stored, window.widthPx);
    for (const mask of masks) await maskOut(stored, mask, window);
    book.add(stored, step);
  }
  return book.close(isWhole);
}

async function maskOut(stored: Float64Array, mask: PictureCells, window: CellWindow): Promise<void> {
  const isStored = new Float32Array(stored.length);
  await mask.copy(window, isStored, window.widthPx);
  for (let i = 0; i < stored.length; i++) if (isStored[i] === 0) stored[i] = NaN;
}
