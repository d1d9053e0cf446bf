import type { Cancel } from '../../domain/cancel';
import { LeastRecent } from './least-recent';

const pieceBytes = 16 * 1024;
/** Enough for the tiles around a long line; compressed bytes only, the cells are kept elsewhere. */
const keptBytes = 16 * 2 ** 20;

/**
 * Reads of any span, served by pieces on a fixed grid: neighbouring missing pieces come with one request, and what has
 * come once is kept while there is room.
 */
export class RangeCache {
  readonly #pieces = new LeastRecent<Uint8Array>(keptBytes);
  readonly #coming = new Map<number, Promise<Uint8Array>>();

  constructor(
    readonly sizeBytes: number,
    readonly fetchSpan: (offset: number, lengthBytes: number) => Promise<Uint8Array>,
  ) {}

  /** Bytes that came without being asked for; whole pieces are kept. */
  put(offset: number, bytes: Uint8Array): void {
    for (let at = 0; at < bytes.length; at += pieceBytes) {
      const piece = bytes.subarray(at, at + pieceBytes);
      const isWhole = piece.length === pieceBytes || offset + at + piece.length === this.sizeBytes;
      if (isWhole) this.#pieces.set(String((offset + at) / pieceBytes), piece);
    }
  }

  async read(offset: number, lengthBytes: number, cancel?: Cancel): Promise<Uint8Array> {
    cancel?.throwIfAborted();
    const first = Math.floor(offset / pieceBytes);
    const last = Math.floor((offset + lengthBytes - 1) / pieceBytes);
    const waiting: Promise<Uint8Array>[] = [];
    for (let piece = first; piece <= last; piece++) waiting.push(this.#piece(piece, last));
    const out = new Uint8Array(lengthBytes);
    const pieces = await Promise.all(waiting);
    cancel?.throwIfAborted();
    pieces.forEach((bytes, i) => {
      const start = (first + i) * pieceBytes - offset;
      const from = Math.max(0, -start);
      out.set(bytes.subarray(from, Math.min(bytes.length, lengthBytes - start)), start + from);
    });
    return out;
  }

  /** A piece in memory, on its way, or asked for together with the missing ones after it up to `last`. */
  #piece(piece: number, last: number): Promise<Uint8Array> {
    const kept = this.#pieces.get(String(piece));
    if (kept !== null) return Promise.resolve(kept);
    const coming = this.#coming.get(piece);
    if (coming !== undefined) return coming;
    let end = piece + 1;
    while (end <= last && !this.#coming.has(end) && this.#pieces.get(String(end)) === null) end++;
    const offset = piece * pieceBytes;
    const lengthBytes = Math.min(end * pieceBytes, this.sizeBytes) - offset;
    const span = this.fetchSpan(offset, lengthBytes);
    for (let one = piece; one < end; one++) {
      const at = (one - piece) * pieceBytes;
      const bytes = span.then((all) => {
        const own = all.slice(at, at + pieceBytes);
        this.#pieces.set(String(one), own);
        return own;
      });
      this.#coming.set(one, bytes);
      bytes.finally(() => this.#coming.delete(one)).catch(() => undefined); // whoever reads it sees the failure
    }
    return this.#coming.get(piece)!;
  }
}
