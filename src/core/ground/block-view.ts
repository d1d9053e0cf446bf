import type { Cancel } from '../domain/cancel';
import { ProblemError, type Raster } from '../domain/raster';

type Block = Float32Array | Float64Array;

/** Tells whether a reading met a block that is not in memory. One for all layers of a terrain. */
export interface Misses {
  any: boolean;
}

/** Cells kept between two rounds when the raster itself has let them go: 24 to 48 MB. */
const keptCells = 6_000_000;

/**
 * A raster seen through the blocks that are in memory, so that hot loops need no promises. A reader that meets a block
 * that is not there gets NaN, and the block lands in the wanted list; whoever drives the loop then calls `loadWanted` and
 * runs that piece of work again.
 */
export class BlockView {
  readonly #blocks = new Map<number, Block>();
  readonly #touched = new Set<number>();
  readonly #wanted = new Set<number>();
  readonly #blocksAcross: number;
  readonly #blockPx: number;
  readonly #widthPx: number;
  readonly #heightPx: number;
  #lastKey = -1;
  #last: Block | null = null;

  constructor(
    readonly raster: Raster,
    readonly misses: Misses = { any: false },
  ) {
    this.#blockPx = raster.blockPx;
    this.#widthPx = raster.widthPx;
    this.#heightPx = raster.heightPx;
    this.#blocksAcross = Math.ceil(raster.widthPx / raster.blockPx);
  }

  /** Elevation of one cell, metres; NaN where it is missing, outside, or not in memory. */
  elevationM(col: number, row: number): number {
    if (col < 0 || row < 0 || col >= this.#widthPx || row >= this.#heightPx) return NaN;
    const size = this.#blockPx;
    const blockCol = Math.floor(col / size);
    const blockRow = Math.floor(row / size);
    const block = this.#block(blockCol, blockRow);
    return block === null ? NaN : block[(row - blockRow * size) * size + (col - blockCol * size)]!;
  }

  /**
   * The nine cells about (col, row) into `into`, row by row from the north-west.
   *
   * @returns false when any of them is missing, outside, or not in memory
   */
  readWindow(col: number, row: number, into: Float64Array): boolean {
    if (col < 1 || row < 1 || col >= this.#widthPx - 1 || row >= this.#heightPx - 1) return false;
    const size = this.#blockPx;
    const blockCol = Math.floor(col / size);
    const blockRow = Math.floor(row / size);
    const c = col - blockCol * size;
    const r = row - blockRow * size;
    if (c >= 1 && r >= 1 && c < size - 1 && r < size - 1) {
      const block = this.#block(blockCol, blockRow);
      if (block === null) return false;
      let i = (r - 1) * size + c;
      into[0] = block[i - 1]!;
      into[1] = block[i]!;
      into[2] = block[i + 1]!;
      i += size;
      into[3] = block[i - 1]!;
      into[4] = block[i]!;
      into[5] = block[i + 1]!;
      i += size;
      into[6] = block[i - 1]!;
      into[7] = block[i]!;
      into[8] = block[i + 1]!;
    } else {
      for (let k = 0; k < 9; k++) {
        into[k] = this.elevationM(col - 1 + (k % 3), row - 1 + Math.floor(k / 3));
      }
    }
    const sum =
      into[0]! + into[1]! + into[2]! + into[3]! + into[4]! + into[5]! + into[6]! + into[7]! + into[8]!;
    return !Number.isNaN(sum);
  }

  /** Reads all wanted blocks; what was read is held until `letGo`. */
  async loadWanted(cancel?: Cancel): Promise<void> {
    const keys = [...this.#wanted];
    await Promise.all(keys.map((key) => this.#load(key, cancel)));
    for (const key of keys) this.#wanted.delete(key);
  }

  /** Drops what the last round did not touch, once much is held. Call between pieces of work. */
  letGo(): void {
    if (this.#blocks.size * this.#blockPx ** 2 > keptCells) {
      for (const key of [...this.#blocks.keys()]) if (!this.#touched.has(key)) this.#blocks.delete(key);
    }
    this.#touched.clear();
    this.#lastKey = -1;
    this.#last = null;
  }

  #block(blockCol: number, blockRow: number): Block | null {
    const key = blockRow * this.#blocksAcross + blockCol;
    if (key === this.#lastKey) return this.#last;
    let block = this.#blocks.get(key);
    if (block === undefined) {
      const inMemory = this.raster.blockInMemory(blockCol, blockRow);
      if (inMemory === null) {
        this.#wanted.add(key);
        this.misses.any = true;
        return null;
      }
      block = inMemory;
      this.#blocks.set(key, block);
    }
    this.#touched.add(key);
    this.#lastKey = key;
    this.#last = block;
    return block;
  }

  async #load(key: number, cancel?: Cancel): Promise<void> {
    const blockCol = key % this.#blocksAcross;
    const blockRow = Math.floor(key / this.#blocksAcross);
    // A small cache may already have let the block go when many are read at once: then it is read again.
    for (let attempt = 0; attempt < 4; attempt++) {
      await this.raster.loadBlock(blockCol, blockRow, cancel);
      const block = this.raster.blockInMemory(blockCol, blockRow);
      if (block !== null) {
        this.#blocks.set(key, block);
        return;
      }
    }
    throw new ProblemError({
      code: 'GROUND-001',
      subject: this.raster.name,
      place: `block ${String(blockCol)}, ${String(blockRow)}`,
      title: 'this part of the raster was read but could not be held in memory',
      remedy: 'Close other large files and try again.',
    });
  }
}
