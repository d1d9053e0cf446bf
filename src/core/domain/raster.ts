import type { Cell, LngLat, MapXY } from './coordinates';
import type { Cancel } from './cancel';
import type { Note, Problem } from './problem';

/** Bytes that can be read by ranges: a local file, a blob, a remote file, a buffer. */
export interface ByteSource {
  readonly name: string;
  readonly sizeBytes: number;
  /** Reading costs traffic: not to be read as a whole for looks alone. */
  readonly isRemote?: boolean;
  /** Exactly `lengthBytes` bytes from `offset`; rejects when the source ends before. */
  read(offset: number, lengthBytes: number, cancel?: Cancel): Promise<Uint8Array>;
}

/**
 * Pixel to map: x = x0 + col * colX + row * rowX, y = y0 + col * colY + row * rowY, where (0, 0) is the outer corner of
 * cell (0, 0) and cell centres lie at +0.5.
 */
export interface Affine {
  readonly x0: number;
  readonly y0: number;
  readonly colX: number;
  readonly colY: number;
  readonly rowX: number;
  readonly rowY: number;
}

/** The coordinate system of a raster, with its way to WGS 84 and back. */
export interface MapFrame {
  /** What the file or the user says, e.g. `EPSG:2056` or `user-defined transverse Mercator`. */
  readonly name: string;
  readonly epsg: number | null;
  readonly isGeographic: boolean;
  toLngLat(xy: MapXY): LngLat;
  fromLngLat(lngLat: LngLat): MapXY;
}

/** A rectangle of cells. */
export interface CellWindow {
  readonly col: number;
  readonly row: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** What elevations are counted from; null: the file does not say. They differ by up to 100 m; slopes do not. */
export type HeightsFrom = 'sea level' | 'ellipsoid' | null;

/**
 * An elevation raster, placed on Earth, read by blocks. Elevations come out in metres (units, scale and offset applied),
 * missing cells as NaN. Rows run from north to south and columns from west to east, or the raster is refused.
 */
export interface Raster {
  readonly name: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly affine: Affine;
  readonly frame: MapFrame;
  /** Mean cell size on the ground at the raster's centre, metres, across the two axes. */
  readonly cellM: number;
  /** Year or date of survey if the file tells; null if not known. */
  readonly surveyed: string | null;
  readonly heightsFrom: HeightsFrom;
  /** What the values are made of: e.g. `float32, deflate, metres`. */
  readonly encoding: string;
  /** SHA-256 of the whole file in hex, or null where it is not wholly read. */
  readonly checksum: string | null;
  readonly notes: readonly Note[];
  /** Side of the cached square blocks, cells. */
  readonly blockPx: number;
  /** The block at (blockCol, blockRow), row-major blockPx x blockPx (edge blocks are padded with NaN), if it is in memory. */
  blockInMemory(blockCol: number, blockRow: number): Float32Array | Float64Array | null;
  /** Reads the block into memory. Rejects with a Problem-carrying ProblemError when the file cannot give it. */
  loadBlock(blockCol: number, blockRow: number, cancel?: Cancel): Promise<void>;
  /** Coarser levels for display only, coarsest last; empty when the file has none. Never used for slopes. */
  readonly overviews: readonly Raster[];
}

/** A rejected promise that carries a problem of the user's. */
export class ProblemError extends Error {
  constructor(readonly problem: Problem) {
    super(problem.title);
  }
}

/** Centre of a cell in map units. */
export function cellCentre(affine: Affine, [col, row]: Cell): MapXY {
  const c = col + 0.5;
  const r = row + 0.5;
  return [affine.x0 + c * affine.colX + r * affine.rowX, affine.y0 + c * affine.colY + r * affine.rowY];
}

/** Fractional column and row (cell centres at +0.5) of a map position. */
export function cellOf(affine: Affine, xy: MapXY): Cell {
  const det = affine.colX * affine.rowY - affine.rowX * affine.colY;
  const dx = xy[0] - affine.x0;
  const dy = xy[1] - affine.y0;
  return [(dx * affine.rowY - dy * affine.rowX) / det, (dy * affine.colX - dx * affine.colY) / det];
}
