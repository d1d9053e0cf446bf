import type { Cancel } from '../../domain/cancel';
import { ProblemError, type ByteSource } from '../../domain/raster';
import { refuse } from './refusal';

/** First bytes kept: the header and directories of most files lie there. */
const headBytes = 64 * 1024;

/** Reads a source only inside its bounds, and turns what a lost disk or server says into a problem. */
export class GuardedReader {
  #head: Promise<Uint8Array> | null = null;

  constructor(readonly source: ByteSource) {}

  get name(): string {
    return this.source.name;
  }

  get sizeBytes(): number {
    return this.source.sizeBytes;
  }

  /** Exactly these bytes. Refuses what lies outside the file. */
  async bytes(offset: number, lengthBytes: number, place: string, cancel?: Cancel): Promise<Uint8Array> {
    const end = offset + lengthBytes;
    if (!Number.isSafeInteger(offset) || !Number.isSafeInteger(end) || offset < 0 || end > this.sizeBytes)
      refuse(
        'TIF-003',
        this.name,
        place,
        `lies at byte ${offset} to ${end}, but the file has ${this.sizeBytes}`,
      );
    if (end <= headBytes) {
      this.#head ??= this.#read(0, Math.min(headBytes, this.sizeBytes));
      return (await this.#head).subarray(offset, end);
    }
    return this.#read(offset, lengthBytes, cancel);
  }

  whole(): Promise<Uint8Array> {
    return this.#read(0, this.sizeBytes);
  }

  async view(offset: number, lengthBytes: number, place: string): Promise<DataView> {
    const bytes = await this.bytes(offset, lengthBytes, place);
    return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  }

  async #read(offset: number, lengthBytes: number, cancel?: Cancel): Promise<Uint8Array> {
    cancel?.throwIfAborted();
    try {
      const bytes = await this.source.read(offset, lengthBytes, cancel);
      if (bytes.length === lengthBytes) return bytes;
    } catch (cause) {
      cancel?.throwIfAborted();
      if (cause instanceof ProblemError) throw cause;
      const why = cause instanceof Error ? cause.message : String(cause);
      refuse('SRC-001', this.name, `byte ${offset}`, `cannot be read any more (${why})`);
    }
    refuse('SRC-001', this.name, `byte ${offset}`, 'cannot be read any more (it has become shorter)');
  }
}
