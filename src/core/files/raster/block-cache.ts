import { limits } from './limits';

type Block = Float32Array | Float64Array;

/** Least recently used blocks go first when the budget is spent. One budget for all rasters of a process. */
export class BlockCache {
  readonly #blocks = new Map<string, Block>();
  #bytes = 0;

  constructor(readonly budgetBytes: number) {}

  get(key: string): Block | null {
    const block = this.#blocks.get(key);
    if (block === undefined) return null;
    this.#blocks.delete(key);
    this.#blocks.set(key, block); // a Map keeps the order of insertion: the last is the freshest
    return block;
  }

  set(key: string, block: Block): void {
    this.#drop(key);
    this.#blocks.set(key, block);
    this.#bytes += block.byteLength;
    for (const oldest of this.#blocks.keys()) {
      if (this.#bytes <= this.budgetBytes || oldest === key) break;
      this.#drop(oldest);
    }
  }

  #drop(key: string): void {
    const block = this.#blocks.get(key);
    if (block === undefined) return;
    this.#blocks.delete(key);
    this.#bytes -= block.byteLength;
  }
}

export const sharedBlocks = new BlockCache(limits.cacheBytes);
