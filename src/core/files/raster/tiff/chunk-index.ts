import type { Cancel } from '../../../domain/cancel';
import { refuse } from '../refusal';
import type { GuardedReader } from '../guarded-reader';
import type { RasterNotes } from '../raster-notes';
import type { ChunkMap, Span } from './chunk-map';
import type { Field } from './directory';
import type { FieldValues } from './field-values';
import { rowBytes, type ListedPicture, type Picture } from './picture';

/** Offsets of tiles are read by pages of this many: files of 100 000 tiles stay cheap to open over a network. */
const pageLength = 4096;
/** Uncompressed strips are read in pieces of about this size, so that one strip for the whole file does no harm. */
const pieceBytes = 256 * 1024;

/** Entries looked at for a cut-off file. */
const checkedEntries = 16384;

/** Tiles and strips by the file's own list of offsets and byte counts. */
export class ChunkIndex implements ChunkMap {
  readonly picture: ListedPicture;
  readonly #values: FieldValues;
  readonly #pages = new Map<string, Promise<readonly number[]>>();
  /** Pieces an uncompressed strip is read in. */
  readonly #piecesPerStrip: number;
  readonly #stripRows: number;
  /** Tiles or strips of the bands before the one that is read, where they lie one after the other. */
  readonly #before: number;

  constructor(values: FieldValues, stored: ListedPicture) {
    this.#values = values;
    this.#stripRows = stored.chunkHeightPx;
    this.#before = stored.isPlanar ? stored.band * stored.chunksAcross * stored.chunksDown : 0;
    const isRaw =
      stored.compression === 1 && stored.predictor === 1 && !stored.isTiled && stored.sample.bits >= 8;
    const rows = isRaw ? pieceRows(stored) : stored.chunkHeightPx;
    this.#piecesPerStrip = stored.chunkHeightPx / rows;
    this.picture = { ...stored, chunkHeightPx: rows, chunksDown: Math.ceil(stored.heightPx / rows) };
  }

  get reader(): GuardedReader {
    return this.#values.reader;
  }

  /** Rows stored in a chunk: the last strip may be shorter, tiles are always full. */
  rowsOf(chunk: number): number {
    const { isTiled, chunkHeightPx, chunksAcross, heightPx } = this.picture;
    if (isTiled) return chunkHeightPx;
    const top = Math.floor(chunk / chunksAcross) * chunkHeightPx;
    return Math.min(chunkHeightPx, heightPx - top);
  }

  /** null: the file says there is nothing (sparse), or the part lies beyond its end. */
  async span(chunk: number, cancel?: Cancel): Promise<Span | null> {
    const stored = this.#before + Math.floor(chunk / this.#piecesPerStrip);
    const [offset, lengthBytes] = await Promise.all([
      this.#entry(this.picture.offsets, stored, cancel),
      this.#entry(this.picture.byteCounts, stored, cancel),
    ]);
    if (lengthBytes === 0 || offset === 0) return null;
    const place = `${this.picture.isTiled ? 'tile' : 'strip'} ${stored + 1}`;
    if (!Number.isSafeInteger(offset + lengthBytes))
      refuse('TIF-003', this.reader.name, place, `claims to lie at byte ${offset}`);
    const span =
      this.#piecesPerStrip === 1 ? { offset, lengthBytes } : this.#piece(chunk, { offset, lengthBytes });
    return span.offset + span.lengthBytes > this.reader.sizeBytes ? null : span;
  }

  /** Says how much of a cut-off file is missing. Very long lists are only checked at their end. */
  async noteCutOff(notes: RasterNotes): Promise<void> {
    const { chunksAcross, chunksDown, isTiled } = this.picture;
    const stored = Math.ceil((chunksAcross * chunksDown) / this.#piecesPerStrip);
    let missing = 0;
    for (let i = Math.max(0, stored - checkedEntries); i < stored; i++) {
      const offset = await this.#entry(this.picture.offsets, i);
      const lengthBytes = await this.#entry(this.picture.byteCounts, i);
      if (lengthBytes > 0 && offset + lengthBytes > this.reader.sizeBytes) missing++;
    }
    const pieces = isTiled ? 'tiles' : 'strips';
    if (missing > 0)
      notes.add(
        'TIF-103',
        `The file is cut off: ${missing} of ${stored} ${pieces} are not in it. They are missing, the rest is read.`,
      );
  }

  #piece(chunk: number, strip: Span): Span {
    const bytes = rowBytes(this.picture);
    const skipped = (chunk % this.#piecesPerStrip) * this.picture.chunkHeightPx * bytes;
    const lengthBytes = this.rowsOf(chunk) * bytes;
    if (skipped + lengthBytes > strip.lengthBytes)
      refuse(
        'TIF-003',
        this.reader.name,
        `strip ${Math.floor(chunk / this.#piecesPerStrip) + 1}`,
        `holds ${strip.lengthBytes} bytes, less than its ${this.#stripRows} rows need`,
      );
    return { offset: strip.offset + skipped, lengthBytes };
  }

  async #entry(field: Field, index: number, cancel?: Cancel): Promise<number> {
    cancel?.throwIfAborted();
    const page = Math.floor(index / pageLength);
    const key = `${field.tag}/${page}`;
    const from = page * pageLength;
    let values = this.#pages.get(key);
    if (values === undefined) {
      values = this.#values.slice(field, from, Math.min(from + pageLength, field.count));
      this.#pages.set(key, values);
      values.catch(() => this.#pages.delete(key)); // a network that failed once may be asked again
    }
    return (await values)[index - from]!;
  }
}

/** The largest divisor of the strip's rows that keeps a piece small. */
function pieceRows(picture: Picture): number {
  const most = Math.max(1, Math.floor(pieceBytes / rowBytes(picture)));
  for (let rows = Math.min(most, picture.chunkHeightPx); rows > 1; rows--)
    if (picture.chunkHeightPx % rows === 0) return rows;
  return 1;
}
