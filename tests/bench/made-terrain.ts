import { closeSync, openSync, writeSync } from 'node:fs';
import { deflateSync } from 'node:zlib';

/** A mountain range without end: sums of waves, quick to make at any cell. Metres. */
export class Waves {
  readonly #x: Float64Array[];
  readonly #y: Float64Array[];

  constructor(widthPx: number, heightPx: number, cellM: number) {
    const wave = (count: number, lengthM: number, phase: number): Float64Array =>
      Float64Array.from({ length: count }, (_, i) => Math.sin((i * cellM * 2 * Math.PI) / lengthM + phase));
    const lengthsM = [9000, 4300, 1700, 610, 230];
    this.#x = lengthsM.map((lengthM, k) => wave(widthPx, lengthM, k));
    this.#y = lengthsM.map((lengthM, k) => wave(heightPx, lengthM * 1.13, 2 * k + 1));
  }

  at(col: number, row: number): number {
    const [a, b, c, d, e] = this.#x as [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];
    const [p, q, r, s, t] = this.#y as [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];
    return (
      2600 +
      620 * a[col]! * p[row]! +
      260 * b[col]! * q[row]! +
      90 * c[col]! * r[row]! +
      24 * d[col]! * s[row]! +
      5 * e[col]! * t[row]!
    );
  }
}

export interface MadeFile {
  readonly path: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly cellM: number;
  readonly isDeflated: boolean;
  /** Least step of the heights; the finer, the less they deflate. */
  readonly stepM: number;
}

/** UTM 27 south, the middle over the demo's line, so that a page which opens it plans and draws on it. */
const epsg = 32727;
const middle = { eastM: 472_000, northM: 4_630_000 };

const tilePx = 256;

/** Writes a tiled float32 GeoTIFF of waves, tile by tile: TIFF 6.0, tags in order, every tile's offset and size. */
export function writeTerrain({ path, widthPx, heightPx, cellM, isDeflated, stepM }: MadeFile): void {
  const across = Math.ceil(widthPx / tilePx);
  const down = Math.ceil(heightPx / tilePx);
  const count = across * down;
  const westM = middle.eastM - (widthPx * cellM) / 2;
  const northM = middle.northM + (heightPx * cellM) / 2;
  const shorts = (...values: number[]): Buffer => Buffer.from(new Uint16Array(values).buffer);
  const doubles = (...values: number[]): Buffer => Buffer.from(new Float64Array(values).buffer);
  const offsets = new Uint32Array(count);
  const sizes = new Uint32Array(count);
  const tags: [tag: number, type: 3 | 4 | 12, bytes: Buffer][] = [
    [256, 3, shorts(widthPx)],
    [257, 3, shorts(heightPx)],
    [258, 3, shorts(32)],
    [259, 3, shorts(isDeflated ? 8 : 1)],
    [262, 3, shorts(1)],
    [277, 3, shorts(1)],
    [322, 3, shorts(tilePx)],
    [323, 3, shorts(tilePx)],
    [324, 4, Buffer.from(offsets.buffer)],
    [325, 4, Buffer.from(sizes.buffer)],
    [339, 3, shorts(3)],
    [33550, 12, doubles(cellM, cellM, 0)],
    [33922, 12, doubles(0, 0, 0, westM, northM, 0)],
    [34735, 3, shorts(1, 1, 0, 3, 1024, 0, 1, 1, 1025, 0, 1, 1, 3072, 0, 1, epsg)],
  ];
  const bytesOf = { 3: 2, 4: 4, 12: 8 };
  const headBytes = 8 + 2 + 12 * tags.length + 4;
  let at = headBytes + tags.reduce((sum, [, , bytes]) => sum + (bytes.length > 4 ? bytes.length : 0), 0);

  const file = openSync(path, 'w');
  const waves = new Waves(across * tilePx, down * tilePx, cellM);
  const tile = new Float32Array(tilePx * tilePx);
  for (let k = 0; k < count; k++) {
    const col0 = (k % across) * tilePx;
    const row0 = Math.floor(k / across) * tilePx;
    for (let i = 0; i < tile.length; i++) {
      tile[i] = Math.round(waves.at(col0 + (i % tilePx), row0 + Math.floor(i / tilePx)) / stepM) * stepM;
    }
    const raw = Buffer.from(tile.buffer);
    const bytes = isDeflated ? deflateSync(raw) : raw;
    offsets[k] = at;
    sizes[k] = bytes.length;
    writeSync(file, bytes, 0, bytes.length, at);
    at += bytes.length;
  }

  const head = Buffer.alloc(headBytes);
  head.write('II');
  head.writeUInt16LE(42, 2);
  head.writeUInt32LE(8, 4);
  head.writeUInt16LE(tags.length, 8);
  let outside = headBytes;
  tags.forEach(([tag, type, bytes], i) => {
    const entry = 10 + 12 * i;
    head.writeUInt16LE(tag, entry);
    head.writeUInt16LE(type, entry + 2);
    head.writeUInt32LE(bytes.length / bytesOf[type], entry + 4);
    if (bytes.length <= 4) {
      bytes.copy(head, entry + 8);
    } else {
      head.writeUInt32LE(outside, entry + 8);
      writeSync(file, bytes, 0, bytes.length, outside);
      outside += bytes.length;
    }
  });
  writeSync(file, head, 0, head.length, 0);
  closeSync(file);
}
