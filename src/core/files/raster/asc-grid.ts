import type { Affine } from '../../domain/raster';
import { limits } from './limits';
import { refuse } from './refusal';

/** An ESRI ASCII grid as text says it; rows from north to south. */
export interface AscGrid {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly affine: Affine;
  readonly nodata: number | null;
  readonly cells: Float64Array;
}

const keys = [
  'ncols',
  'nrows',
  'xllcorner',
  'yllcorner',
  'xllcenter',
  'yllcenter',
  'cellsize',
  'dx',
  'dy',
  'nodata_value',
];
const numberText = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;

/** Reads the header (any order, corner or centre of the south-west cell) and exactly as many numbers as it promises. */
export function readAscGrid(name: string, bytes: Uint8Array): AscGrid {
  const words = new Words(bytes);
  const header = new Map<string, number>();
  for (let word = words.peek(); word !== null && /^[a-z_\uFEFF]/i.test(word); word = words.peek()) {
    const key = word.replace('\uFEFF', '').toLowerCase();
    if (/^[+-]?(nan|inf)/.test(key) && header.has('ncols')) break; // the first cell, not a key
    words.next();
    const text = words.next() ?? '';
    if (!keys.includes(key))
      refuse('ASC-001', name, `line ${words.line}`, `"${word.slice(0, 40)}" is no key of the format`);
    if (header.has(key)) refuse('ASC-001', name, `line ${words.line}`, `${key} is given twice`);
    const value = /^[+-]?nan$/i.test(text) ? NaN : numberText.test(text) ? Number(text) : undefined;
    if (value === undefined)
      refuse('ASC-001', name, `line ${words.line}`, `${key} is "${text.slice(0, 40)}", which is no number`);
    header.set(key, value);
  }
  const widthPx = header.get('ncols') ?? NaN;
  const heightPx = header.get('nrows') ?? NaN;
  if (!isCount(widthPx) || !isCount(heightPx))
    refuse('ASC-001', name, 'header', 'does not say how many columns and rows there are');
  if (widthPx * heightPx > limits.textCells)
    refuse('TIF-005', name, 'header', `claims ${widthPx} x ${heightPx} cells`, {
      remedy: 'Rewrite it as a GeoTIFF: gdal_translate IN.asc OUT.tif',
    });
  // Each cell takes at least a digit and a space: a short file cannot make us reserve much.
  if (widthPx * heightPx > bytes.length / 2 + 1)
    refuse('ASC-002', name, 'header', `claims ${widthPx} x ${heightPx} cells in ${bytes.length} bytes`);
  const affine = affineOf(name, header, heightPx);
  const cells = readCells(name, words, widthPx * heightPx);
  const nodata = header.get('nodata_value') ?? null;
  return { widthPx, heightPx, affine, nodata, cells };
}

function affineOf(name: string, header: ReadonlyMap<string, number>, heightPx: number): Affine {
  const colX = header.get('dx') ?? header.get('cellsize') ?? NaN;
  const height = header.get('dy') ?? header.get('cellsize') ?? NaN;
  if (!(colX > 0 && height > 0)) refuse('ASC-001', name, 'header', 'does not say how large a cell is');
  const west = header.get('xllcorner') ?? (header.get('xllcenter') ?? NaN) - colX / 2;
  const south = header.get('yllcorner') ?? (header.get('yllcenter') ?? NaN) - height / 2;
  if (!Number.isFinite(west) || !Number.isFinite(south))
    refuse('ASC-001', name, 'header', 'does not say where its south-west corner lies');
  return { x0: west, y0: south + heightPx * height, colX, colY: 0, rowX: 0, rowY: -height };
}

function readCells(name: string, words: Words, count: number): Float64Array {
  const cells = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const word = words.next();
    if (word === null) refuse('ASC-002', name, `line ${words.line}`, `ends after ${i} of ${count} cells`);
    if (/^[+-]?nan$/i.test(word)) cells[i] = NaN;
    else if (numberText.test(word)) cells[i] = Number(word);
    else refuse('ASC-002', name, `line ${words.line}`, `"${word.slice(0, 40)}" is no number`);
  }
  if (words.next() !== null)
    refuse('ASC-002', name, `line ${words.line}`, `goes on after its ${count} cells`);
  return cells;
}

const isCount = (n: number) => Number.isSafeInteger(n) && n > 0;

/** Words between spaces, one at a time; the text is never held a second time. */
class Words {
  line = 1;
  #at = 0;
  #peeked: string | null | undefined;

  constructor(readonly bytes: Uint8Array) {}

  peek(): string | null {
    if (this.#peeked === undefined) this.#peeked = this.#read();
    return this.#peeked;
  }

  next(): string | null {
    const word = this.peek();
    this.#peeked = undefined;
    return word;
  }

  #read(): string | null {
    const { bytes } = this;
    while (this.#at < bytes.length && bytes[this.#at]! <= 32) if (bytes[this.#at++] === 10) this.line++;
    const from = this.#at;
    while (this.#at < bytes.length && bytes[this.#at]! > 32 && this.#at - from < 64) this.#at++;
    return this.#at === from ? null : String.fromCharCode(...bytes.subarray(from, this.#at));
  }
}
