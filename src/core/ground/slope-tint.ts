import { groundScaleAt } from './ground-scale';
import { netIntervals, type TileNet } from './relief-tile';
import { hornSlopes, slopeMetric } from './slope-kernel';
import type { Layer } from './terrain';

/**
 * Horn slopes of a layer's own cells, block by block, as they are asked for. The scale is that of each block's middle: off by
 * a few hundredths of a degree at its rim, for the eye only.
 */
export class CellSlopes {
  readonly #blocks = new Map<number, Float32Array>();
  readonly #size: number;
  readonly #across: number;
  #lastKey = -1;
  #last: Float32Array | null = null;

  constructor(readonly layer: Layer) {
    this.#size = layer.raster.blockPx;
    this.#across = Math.ceil(layer.raster.widthPx / this.#size);
  }

  /** Degrees; NaN where there is no slope, or no cell. */
  at(col: number, row: number): number {
    const { widthPx, heightPx } = this.layer.raster;
    if (col < 0 || row < 0 || col >= widthPx || row >= heightPx) return NaN;
    const size = this.#size;
    const blockCol = Math.floor(col / size);
    const blockRow = Math.floor(row / size);
    const key = blockRow * this.#across + blockCol;
    if (key !== this.#lastKey || this.#last === null) {
      let made = this.#blocks.get(key);
      if (made === undefined) {
        made = this.#make(blockCol, blockRow);
        this.#blocks.set(key, made);
      }
      this.#lastKey = key;
      this.#last = made;
    }
    return this.#last[(row - blockRow * size + 1) * (size + 2) + col - blockCol * size + 1]!;
  }

  /** The block with one cell more all round. */
  #make(blockCol: number, blockRow: number): Float32Array {
    const { raster, view } = this.layer;
    const side = this.#size + 2;
    const col0 = blockCol * this.#size - 1;
    const row0 = blockRow * this.#size - 1;
    const z = new Float64Array(side * side);
    for (let r = 0; r < side; r++) {
      for (let c = 0; c < side; c++) z[r * side + c] = view.elevationM(col0 + c, row0 + r);
    }
    const scale = groundScaleAt(raster, col0 + side / 2, row0 + side / 2);
    const slopesDeg = new Float32Array(side * side);
    hornSlopes(z, side, { fromRow: 0, toRow: side }, slopeMetric(scale), slopesDeg);
    return slopesDeg;
  }
}

export interface SlopePixels {
  readonly sizePx: number;
  /** NaN where no slope is known. */
  readonly slopesDeg: Float32Array;
}

/**
 * Slopes of the pixels that no finer layer has filled, from the raster's own cells and never from coarser levels. Where a
 * pixel is larger than a cell it shows the steepest of the cells under it; where smaller, it lies between four of them.
 */
export function tintFrom(layer: Layer, net: TileNet, cellsPerPixel: number, into: SlopePixels): void {
  const { widthPx, heightPx } = layer.raster;
  const { sizePx, slopesDeg } = into;
  const slopes = new CellSlopes(layer);
  const nodes = netIntervals + 1;
  const side = sizePx / netIntervals;
  for (let i = 0; i < slopesDeg.length; i++) {
    if (!Number.isNaN(slopesDeg[i]!)) continue;
    const x = (i % sizePx) + 0.5;
    const y = Math.floor(i / sizePx) + 0.5;
    const netX = Math.floor(x / side);
    const netY = Math.floor(y / side);
    const u = x / side - netX;
    const v = y / side - netY;
    const k = netY * nodes + netX;
    const mix = (at: Float64Array): number =>
      (at[k]! * (1 - u) + at[k + 1]! * u) * (1 - v) + (at[k + nodes]! * (1 - u) + at[k + nodes + 1]! * u) * v;
    const col = mix(net.cols);
    const row = mix(net.rows);
    if (!(col >= 0 && row >= 0 && col < widthPx && row < heightPx)) continue;
    slopesDeg[i] =
      cellsPerPixel > 1 ? steepestDeg(slopes, col, row, cellsPerPixel / 2) : betweenDeg(slopes, col, row);
  }
}

/** The steepest of the cells within some reach of a place, cells. */
function steepestDeg(slopes: CellSlopes, col: number, row: number, reach: number): number {
  let steepest = NaN;
  for (let r = Math.floor(row - reach); r <= Math.floor(row + reach); r++) {
    for (let c = Math.floor(col - reach); c <= Math.floor(col + reach); c++) {
      const slopeDeg = slopes.at(c, r);
      if (!(slopeDeg <= steepest) && !Number.isNaN(slopeDeg)) steepest = slopeDeg;
    }
  }
  return steepest;
}

/** Between the centres of four cells; beside a hole that of the cell itself. */
function betweenDeg(slopes: CellSlopes, col: number, row: number): number {
  const c = Math.floor(col - 0.5);
  const r = Math.floor(row - 0.5);
  const u = col - 0.5 - c;
  const v = row - 0.5 - r;
  const between =
    (slopes.at(c, r) * (1 - u) + slopes.at(c + 1, r) * u) * (1 - v) +
    (slopes.at(c, r + 1) * (1 - u) + slopes.at(c + 1, r + 1) * u) * v;
  return Number.isNaN(between) ? slopes.at(Math.floor(col), Math.floor(row)) : between;
}
