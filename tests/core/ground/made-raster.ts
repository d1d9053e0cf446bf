import type { Affine, Raster, MapFrame } from '../../../src/core/domain/raster';
import type { LngLat } from '../../../src/core/domain/coordinates';

/** A frame of metres east and north about one place: exact enough for tests at its middle, and free of any projection library. */
export function localFrame([lng0, lat0]: LngLat): MapFrame {
  const lat = (lat0 * Math.PI) / 180;
  const e2 = (1 / 298.257223563) * (2 - 1 / 298.257223563);
  const w = Math.sqrt(1 - e2 * Math.sin(lat) ** 2);
  const mPerLng = ((Math.PI / 180) * 6378137 * Math.cos(lat)) / w;
  const mPerLat = ((Math.PI / 180) * 6378137 * (1 - e2)) / w ** 3;
  return {
    name: 'local metres',
    epsg: null,
    isGeographic: false,
    toLngLat: ([x, y]) => [lng0 + x / mPerLng, lat0 + y / mPerLat],
    fromLngLat: ([lng, at]) => [(lng - lng0) * mPerLng, (at - lat0) * mPerLat],
  };
}

export const geographicFrame: MapFrame = {
  name: 'EPSG:4326',
  epsg: 4326,
  isGeographic: true,
  toLngLat: ([x, y]) => [x, y],
  fromLngLat: ([lng, lat]) => [lng, lat],
};

interface Made {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly cellM: number;
  readonly frame?: MapFrame;
  readonly affine?: Affine;
  readonly name?: string;
  readonly blockPx?: number;
  /** Blocks are only in memory once loaded. */
  readonly isLazy?: boolean;
}

export interface MadeRaster extends Raster {
  /** Blocks read so far, with repeats. */
  readonly loads: string[];
}

/**
 * A raster made from a function of the cell centre in map units (x, y), or of (col, row). By default local metres about
 * 20 W 45 S... the middle of an ocean, with (0, 0) at the raster's middle.
 */
export function makeRaster(
  made: Made,
  z: (x: number, y: number, col: number, row: number) => number,
): MadeRaster {
  const { widthPx, heightPx, cellM, blockPx = 64 } = made;
  const affine = made.affine ?? {
    x0: (-widthPx * cellM) / 2,
    y0: (heightPx * cellM) / 2,
    colX: cellM,
    colY: 0,
    rowX: 0,
    rowY: -cellM,
  };
  const blocks = new Map<string, Float64Array>();
  const loads: string[] = [];
  const makeBlock = (blockCol: number, blockRow: number): Float64Array => {
    const block = new Float64Array(blockPx * blockPx).fill(NaN);
    for (let r = 0; r < blockPx; r++) {
      for (let c = 0; c < blockPx; c++) {
        const col = blockCol * blockPx + c;
        const row = blockRow * blockPx + r;
        if (col >= widthPx || row >= heightPx) continue;
        const x = affine.x0 + (col + 0.5) * affine.colX + (row + 0.5) * affine.rowX;
        const y = affine.y0 + (col + 0.5) * affine.colY + (row + 0.5) * affine.rowY;
        block[r * blockPx + c] = z(x, y, col, row);
      }
    }
    return block;
  };
  const key = (blockCol: number, blockRow: number) => `${String(blockCol)},${String(blockRow)}`;
  const raster: MadeRaster = {
    name: made.name ?? 'made',
    widthPx,
    heightPx,
    affine,
    frame: made.frame ?? localFrame(middleOfOcean),
    cellM,
    surveyed: null,
    heightsFrom: null,
    encoding: 'made',
    checksum: null,
    notes: [],
    blockPx,
    blockInMemory: (blockCol, blockRow) => blocks.get(key(blockCol, blockRow)) ?? null,
    loadBlock: (blockCol, blockRow) => {
      loads.push(key(blockCol, blockRow));
      blocks.set(key(blockCol, blockRow), makeBlock(blockCol, blockRow));
      return Promise.resolve();
    },
    overviews: [],
    loads,
  };
  if (made.isLazy !== true) {
    for (let r = 0; r * blockPx < heightPx; r++) {
      for (let c = 0; c * blockPx < widthPx; c++) blocks.set(key(c, r), makeBlock(c, r));
    }
  }
  return raster;
}

export const middleOfOcean: LngLat = [-28, -46];
