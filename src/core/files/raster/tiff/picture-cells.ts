import type { Cancel } from '../../../domain/cancel';
import type { CellWindow } from '../../../domain/raster';
import type { Inflater } from '../codec/inflate';
import { LeastRecent } from '../least-recent';
import type { ChunkMap } from './chunk-map';
import { decodeChunk, decodeTop, type StoredCells } from './decode-chunk';

/** Decoded strips kept for the blocks beside; tiles that are blocks themselves are not kept twice. */
const keptBytes = 16 * 2 ** 20;

/** Reads rectangles of one picture's cells as stored, across tiles or strips. */
export class PictureCells {
  readonly #kept = new LeastRecent<StoredCells>(keptBytes);
  readonly #empty = new Set<number>();
  readonly #decoding = new Map<number, Promise<StoredCells | null>>();

  constructor(
    readonly index: ChunkMap,
    readonly inflater: Inflater,
    /** Keep decoded pieces: not needed where each is read for one block only. */
    readonly keeps = true,
  ) {}

  /**
   * Copies the window's cells to `out` (row-major, `strideCells` apart), as they lie in the file. What lies outside the
   * picture or is not stored keeps its value in `out`.
   */
  async copy(window: CellWindow, out: StoredCells, strideCells: number, cancel?: Cancel): Promise<void> {
    const { chunkWidthPx, chunkHeightPx, widthPx, heightPx, chunksAcross } = this.index.picture;
    const right = Math.min(window.col + window.widthPx, widthPx);
    const bottom = Math.min(window.row + window.heightPx, heightPx);
    const left = Math.max(window.col, 0);
    const top = Math.max(window.row, 0);
    for (let down = Math.floor(top / chunkHeightPx); down * chunkHeightPx < bottom; down++)
      for (let across = Math.floor(left / chunkWidthPx); across * chunkWidthPx < right; across++) {
        const cells = await this.#chunk(down * chunksAcross + across, cancel);
        if (cells === null) continue;
        const fromCol = Math.max(left, across * chunkWidthPx);
        const toCol = Math.min(right, (across + 1) * chunkWidthPx);
        const toRow = Math.min(bottom, (down + 1) * chunkHeightPx);
        for (let row = Math.max(top, down * chunkHeightPx); row < toRow; row++) {
          const at = (row - down * chunkHeightPx) * chunkWidthPx - across * chunkWidthPx;
          const to = (row - window.row) * strideCells + fromCol - window.col;
          out.set(cells.subarray(at + fromCol, at + toCol), to);
        }
      }
  }

  /**
   * The cells of a window that is one tile, the caller's to change. null: it is not, or is kept for others, or is not stored;
   * `copy` then tells.
   */
  async tile({ col, row, widthPx, heightPx }: CellWindow, cancel?: Cancel): Promise<StoredCells | null> {
    const { picture } = this.index;
    const [across, down] = [col / picture.chunkWidthPx, row / picture.chunkHeightPx];
    const isTile =
      widthPx === picture.chunkWidthPx &&
      heightPx === picture.chunkHeightPx &&
      col + widthPx <= picture.widthPx &&
      row + heightPx <= picture.heightPx;
    const chunk = down * picture.chunksAcross + across;
    if (this.keeps || !isTile || !Number.isInteger(chunk) || this.#empty.has(chunk)) return null;
    const cells = await decodeChunk(this.index, chunk, this.inflater, cancel);
    if (cells === null) this.#empty.add(chunk);
    return cells;
  }

  /** Some rows from the top of a tile or strip, where they can be had without the rest; its whole width. */
  async top(chunk: number, rows: number): Promise<StoredCells | null> {
    return this.#empty.has(chunk) ? null : decodeTop(this.index, chunk, this.inflater, rows);
  }

  async #chunk(chunk: number, cancel?: Cancel): Promise<StoredCells | null> {
    if (this.#empty.has(chunk)) return null;
    const key = String(chunk);
    const kept = this.#kept.get(key);
    if (kept !== null) return kept;
    const cells = await this.#decode(chunk, cancel);
    if (cells === null) {
      this.#empty.add(chunk);
      return null;
    }
    if (this.keeps) this.#kept.set(key, cells);
    return cells;
  }

  /** Neighbouring blocks read at the same time share one decoding, unless one of them may stop it. */
  #decode(chunk: number, cancel?: Cancel): Promise<StoredCells | null> {
    const shared = this.#decoding.get(chunk);
    if (shared !== undefined) return shared;
    const decoding = decodeChunk(this.index, chunk, this.inflater, cancel);
    if (cancel !== undefined) return decoding;
    this.#decoding.set(chunk, decoding);
    return decoding.finally(() => this.#decoding.delete(chunk));
  }
}
