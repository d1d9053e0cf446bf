import type { Cancel } from '../../domain/cancel';
import type { Raster } from '../../domain/raster';
import { limits } from './limits';
import { LeastRecent } from './least-recent';
import { groundCellM } from './ground-cell';

/** All that differs between one kind of raster file and another. */
export interface GridSource extends Pick<
  Raster,
  | 'name'
  | 'widthPx'
  | 'heightPx'
  | 'affine'
  | 'frame'
  | 'surveyed'
  | 'heightsFrom'
  | 'encoding'
  | 'checksum'
  /** Grows while blocks are read. */
  | 'notes'
  | 'blockPx'
  | 'overviews'
> {
  /** A block in metres, NaN where missing; blockPx x blockPx, padded with NaN. */
  readonly readBlock: (
    blockCol: number,
    blockRow: number,
    cancel?: Cancel,
  ) => Promise<Float32Array | Float64Array>;
}

/** One budget for all rasters of a process. */
const sharedBlocks = new LeastRecent<Float32Array | Float64Array>(limits.cacheBytes);

let rasters = 0;

/** A raster whose blocks are read once, kept while there is room, and read again when asked for after that. */
export function gridRaster(source: GridSource): Raster {
  const { readBlock, ...facts } = source;
  const prefix = `${rasters++}/`;
  const loading = new Map<string, Promise<void>>();
  const blocksAcross = Math.ceil(source.widthPx / source.blockPx);
  const blocksDown = Math.ceil(source.heightPx / source.blockPx);

  const load = async (key: string, col: number, row: number, cancel?: Cancel) => {
    sharedBlocks.set(key, await readBlock(col, row, cancel));
  };

  return {
    ...facts,
    cellM: groundCellM(source),
    blockInMemory: (col, row) => sharedBlocks.get(`${prefix}${row * blocksAcross + col}`),
    loadBlock(col, row, cancel) {
      if (!(col >= 0 && col < blocksAcross && row >= 0 && row < blocksDown))
        return Promise.reject(new RangeError(`block ${col}, ${row} lies outside ${source.name}`));
      const key = `${prefix}${row * blocksAcross + col}`;
      if (sharedBlocks.get(key) !== null) return Promise.resolve();
      // Two callers share one reading, unless one of them may stop it.
      const shared = loading.get(key);
      if (shared !== undefined) return shared;
      const reading = load(key, col, row, cancel);
      if (cancel !== undefined) return reading;
      loading.set(key, reading);
      return reading.finally(() => loading.delete(key));
    },
  };
}
