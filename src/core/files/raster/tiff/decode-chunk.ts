import type { Cancel } from '../../../domain/cancel';
import { ProblemError } from '../../../domain/raster';
import type { Inflater } from '../codec/inflate';
import { unLzw } from '../codec/lzw';
import { swapBytes, undoDifferences, undoFloatPlanes } from '../codec/predictor';
import { limits } from '../limits';
import { refuse } from '../refusal';
import type { ChunkMap, Span } from './chunk-map';
import { chunkBytes, lercCode, rowBytes, type Picture } from './picture';

// Decoders that are large and seldom met are loaded when they are.
const lerc = () => import('../codec/lerc');
const packBits = () => import('../codec/packbits');
const zstd = () => import('../codec/zstd');

/** The values of the band that is read, as stored, row-major; NaN only where the coding itself masks a cell. */
export type StoredCells = Float32Array | Float64Array;

/** Reads and decodes one tile or strip of the band that is read. null: the file has no data for it (sparse or cut off). */
export async function decodeChunk(
  index: ChunkMap,
  chunk: number,
  inflater: Inflater,
  cancel?: Cancel,
): Promise<StoredCells | null> {
  const { picture, reader } = index;
  const span = await guardedSpan(index, chunk, cancel);
  if (span === null) return null;
  const rows = index.rowsOf(chunk);
  const wanted = chunkBytes(picture, rows);
  const stored = await reader.bytes(span.offset, span.lengthBytes, placeOf(picture, chunk), cancel);
  try {
    if (picture.compression === lercCode) return await decodeLercCells(picture, stored, rows, inflater);
    const raw = await decompress(picture.compression, stored, wanted, inflater);
    if (raw.length < wanted) throw new Error(`gives ${raw.length} of ${wanted} bytes`);
    return cellsOf(picture, undoCoding(picture, raw.subarray(0, wanted)), rows);
  } catch (cause) {
    cancel?.throwIfAborted();
    return cannotBeDecoded(index, chunk, span, cause);
  }
}

const deflateCodes: readonly number[] = [8, 32946];
/** Bytes more than the rows' share are read, since rows do not deflate evenly. */
const spare = 1.1;

/**
 * The top rows of a deflated tile or strip, of which only the beginning is read: about as many as are wanted, whole ones. null:
 * there are none to be had so, and `decodeChunk` tells.
 */
export async function decodeTop(
  index: ChunkMap,
  chunk: number,
  inflater: Inflater,
  wantedRows: number,
): Promise<StoredCells | null> {
  const { picture, reader } = index;
  const rows = index.rowsOf(chunk);
  if (!deflateCodes.includes(picture.compression) || wantedRows * spare >= rows) return null;
  const span = await guardedSpan(index, chunk);
  if (span === null) return null;
  const lengthBytes = Math.ceil(span.lengthBytes * spare * (wantedRows / rows));
  const stored = await reader.bytes(span.offset, lengthBytes, placeOf(picture, chunk));
  try {
    const raw = aligned(await inflater.beginning(stored, chunkBytes(picture, rows)));
    const whole = Math.min(wantedRows, Math.floor(raw.length / rowBytes(picture)));
    if (whole === 0) return null;
    return cellsOf(picture, undoCoding(picture, raw.subarray(0, chunkBytes(picture, whole))), whole);
  } catch (cause) {
    return cannotBeDecoded(index, chunk, span, cause);
  }
}

const placeOf = ({ isTiled }: Picture, chunk: number): string => `${isTiled ? 'tile' : 'strip'} ${chunk + 1}`;

async function guardedSpan(index: ChunkMap, chunk: number, cancel?: Cancel): Promise<Span | null> {
  const { picture, reader } = index;
  const span = await index.span(chunk, cancel);
  if (span === null) return null;
  const wanted = chunkBytes(picture, index.rowsOf(chunk));
  if (span.lengthBytes > wanted * 2 + limits.storedSlackBytes)
    refuse(
      'TIF-005',
      reader.name,
      placeOf(picture, chunk),
      `claims ${span.lengthBytes} stored bytes for ${wanted} bytes of cells`,
    );
  return span;
}

function cannotBeDecoded({ picture, reader }: ChunkMap, chunk: number, span: Span, cause: unknown): never {
  if (cause instanceof ProblemError) throw cause;
  const why = cause instanceof Error ? cause.message : String(cause);
  return refuse(
    'TIF-015',
    reader.name,
    `${placeOf(picture, chunk)} at byte ${span.offset}`,
    `cannot be decoded (${why})`,
  );
}

async function decompress(
  code: number,
  stored: Uint8Array,
  maxBytes: number,
  inflater: Inflater,
): Promise<Uint8Array> {
  if (code === 1) return new Uint8Array(stored.subarray(0, maxBytes));
  if (code === 5) return unLzw(stored, maxBytes);
  if (code === 32773) return aligned(await (await packBits()).unpackBits(stored, maxBytes));
  if (code === 50000) return (await zstd()).unZstd(stored, maxBytes);
  return aligned(await inflater.whole(stored, maxBytes));
}

/** Typed views need an offset that is a multiple of their size, and bytes that are ours to change. */
function aligned(bytes: Uint8Array): Uint8Array {
  return bytes.byteOffset % 8 === 0 ? bytes : new Uint8Array(bytes);
}

/** Undoes byte order and predictor; little-endian afterwards. */
function undoCoding(picture: Picture, raw: Uint8Array): Uint8Array {
  const { sample, predictor, isLittleEndian } = picture;
  const apart = picture.isPlanar ? 1 : picture.bands;
  const sampleBytes = sample.bits / 8;
  if (predictor === 3) {
    undoFloatPlanes(raw, rowBytes(picture), apart, sample.bits);
    return raw;
  }
  if (!isLittleEndian && sampleBytes > 1) swapBytes(raw, sampleBytes);
  if (predictor === 2) undoDifferences(raw, rowBytes(picture), apart, sample.bits);
  return raw;
}

async function decodeLercCells(picture: Picture, stored: Uint8Array, rows: number, inflater: Inflater) {
  const maxBytes = chunkBytes(picture, rows) * 2 + limits.storedSlackBytes;
  const { lercAddition } = picture;
  const blob =
    lercAddition === 1
      ? await inflater.whole(stored, maxBytes)
      : lercAddition === 2
        ? (await zstd()).unZstd(stored, maxBytes)
        : stored;
  const apart = picture.isPlanar ? 1 : picture.bands;
  const first = picture.isPlanar ? 0 : picture.band;
  const { decodeLerc } = await lerc();
  const { values, mask } = decodeLerc(blob, picture.chunkWidthPx, rows, apart);
  const cells = emptyCells(picture, picture.chunkWidthPx * rows);
  for (let i = 0; i < cells.length; i++)
    cells[i] = mask !== null && mask[i] === 0 ? NaN : values[i * apart + first]!;
  return cells;
}

/** Float32 holds 8- and 16-bit whole numbers and float32 without loss; the rest needs float64. */
function emptyCells({ sample }: Picture, count: number): StoredCells {
  const fits = sample.bits <= 16 || (sample.kind === 'float' && sample.bits === 32);
  return fits ? new Float32Array(count) : new Float64Array(count);
}

function cellsOf(picture: Picture, raw: Uint8Array, rows: number): StoredCells {
  const { kind, bits } = picture.sample;
  if (bits === 1) return bitCells(picture, raw, rows);
  const apart = picture.isPlanar ? 1 : picture.bands;
  const words = wordsOf(raw, kind, bits);
  if (apart === 1 && (words instanceof Float32Array || words instanceof Float64Array)) return words;
  const cells = emptyCells(picture, picture.chunkWidthPx * rows);
  const first = picture.isPlanar ? 0 : picture.band;
  for (let i = 0; i < cells.length; i++) cells[i] = words[i * apart + first]!;
  return cells;
}

function wordsOf({ buffer, byteOffset: at, length }: Uint8Array, kind: string, bits: number) {
  if (kind === 'float')
    return bits === 32
      ? new Float32Array(buffer, at, length >> 2)
      : new Float64Array(buffer, at, length >> 3);
  if (bits === 8)
    return kind === 'int' ? new Int8Array(buffer, at, length) : new Uint8Array(buffer, at, length);
  if (bits === 16)
    return kind === 'int'
      ? new Int16Array(buffer, at, length >> 1)
      : new Uint16Array(buffer, at, length >> 1);
  return kind === 'int' ? new Int32Array(buffer, at, length >> 2) : new Uint32Array(buffer, at, length >> 2);
}

/** One-bit masks: rows begin on whole bytes, most significant bit first. */
function bitCells(picture: Picture, raw: Uint8Array, rows: number): Float32Array {
  const width = picture.chunkWidthPx;
  const stride = rowBytes(picture);
  const cells = new Float32Array(width * rows);
  for (let row = 0; row < rows; row++)
    for (let col = 0; col < width; col++)
      cells[row * width + col] = (raw[row * stride + (col >> 3)]! >> (7 - (col & 7))) & 1;
  return cells;
}
