import type { Cancel } from '../domain/cancel';
import type { LngLat } from '../domain/coordinates';
import type { Raster } from '../domain/raster';
import { BlockView, type Misses } from './block-view';
import { cellOfPosition, GroundScales, positionOfCell } from './ground-scale';
import { NineCells } from './nine-cells';

/** One raster of the terrain, with what is remembered about it while reading. */
export class Layer {
  readonly view: BlockView;
  readonly scales: GroundScales;
  readonly cells: NineCells;

  constructor(
    readonly raster: Raster,
    /** Index into the list the terrain was made from. */
    readonly index: number,
    misses: Misses,
  ) {
    this.view = new BlockView(raster, misses);
    this.scales = new GroundScales(raster);
    this.cells = new NineCells(this.view, this.scales);
  }

  holds(col: number, row: number): boolean {
    return col >= 0 && row >= 0 && col < this.raster.widthPx && row < this.raster.heightPx;
  }
}

/** Stations worked on together: those close by need the same blocks. */
export const roundStations = 64;

const scoutsApart = 8;

/** All rasters, finest first: the finest that has data at a place speaks for it. */
export class Terrain {
  readonly layers: readonly Layer[];
  readonly #misses: Misses = { any: false };

  constructor(rasters: readonly Raster[]) {
    this.layers = rasters
      .map((raster, index) => new Layer(raster, index, this.#misses))
      .sort((a, b) => a.raster.cellM - b.raster.cellM || a.index - b.index);
  }

  /** True while the reading under way has met a block that is not in memory: its result is then worth nothing. */
  get isWanting(): boolean {
    return this.#misses.any;
  }

  /**
   * Runs a synchronous reading for each item. Those that met blocks not in memory are run again once these are read.
   *
   * @returns in the same order as the items
   */
  async read<Item, Read>(
    items: readonly Item[],
    readOne: (item: Item) => Read,
    cancel?: Cancel,
  ): Promise<Read[]> {
    const results: Read[] = [];
    let pending = items.map((_, i) => i);
    let isFirst = true;
    while (pending.length > 0) {
      const again: number[] = [];
      for (const i of pending) {
        // Once a block is missing a few look on for more: what lies near needs the same, and would be read in vain.
        if (isFirst && again.length > 0 && i % scoutsApart !== 0) {
          again.push(i);
          continue;
        }
        this.#misses.any = false;
        const result = readOne(items[i]!);
        if (this.#misses.any) again.push(i);
        else results[i] = result;
      }
      if (again.length > 0) await Promise.all(this.layers.map((layer) => layer.view.loadWanted(cancel)));
      pending = again;
      isFirst = false;
    }
    this.#misses.any = false;
    for (const layer of this.layers) layer.view.letGo();
    return results;
  }

  /** True where some raster reaches all round a place, so that data missing there are a hole and not its edge. */
  isInside(position: LngLat): boolean {
    return this.layers.some(({ raster }) => {
      const [col, row] = cellOfPosition(raster, position);
      return col >= 1 && row >= 1 && col < raster.widthPx - 1 && row < raster.heightPx - 1;
    });
  }
}

/** A rectangle in a layer's fractional cell coordinates. */
export interface CellBox {
  readonly west: number;
  readonly east: number;
  readonly north: number;
  readonly south: number;
}

/** Where the outline of `inner` lies in the cells of `outer`, with a cell to spare. NaN-safe: unknown corners are left out. */
export function outlineIn(inner: Raster, outer: Raster): CellBox {
  let [west, east, north, south] = [Infinity, -Infinity, Infinity, -Infinity];
  const sides = 16;
  for (let i = 0; i <= sides; i++) {
    for (const [col, row] of [
      [i / sides, 0],
      [i / sides, 1],
      [0, i / sides],
      [1, i / sides],
    ] as const) {
      const position = positionOfCell(inner, col * inner.widthPx, row * inner.heightPx);
      const [c, r] = cellOfPosition(outer, position);
      if (Number.isNaN(c) || Number.isNaN(r)) continue;
      west = Math.min(west, c);
      east = Math.max(east, c);
      north = Math.min(north, r);
      south = Math.max(south, r);
    }
  }
  return { west: west - 1, east: east + 1, north: north - 1, south: south + 1 };
}
