import type { LngLat } from '../domain/coordinates';
import type { Raster } from '../domain/raster';
import { cellOfPosition } from './ground-scale';

/** A tile of the web map (EPSG:3857 halved at each zoom; x from the date line eastward, y from the north). */
export interface MapTile {
  readonly z: number;
  readonly x: number;
  readonly y: number;
  readonly sizePx: number;
}

/** Circumference of the web map's sphere, metres (EPSG:3857 on the WGS 84 equatorial radius). */
const circumferenceM = 2 * Math.PI * 6378137;

/** Intervals of the net of exact reprojection along each side of a tile. */
export const netIntervals = 16;

/** Position of a place in a tile, pixels from its north-west corner. */
export function positionInTile({ z, x, y, sizePx }: MapTile, pxX: number, pxY: number): LngLat {
  const tiles = 2 ** z;
  const lng = ((x + pxX / sizePx) / tiles) * 360 - 180;
  const mercator = Math.PI * (1 - (2 * (y + pxY / sizePx)) / tiles);
  return [lng, (Math.atan(Math.sinh(mercator)) * 180) / Math.PI];
}

/** Side of a pixel on the ground, metres, in the middle of the tile. */
export function pixelM(tile: MapTile): number {
  const [, latDeg] = positionInTile(tile, tile.sizePx / 2, tile.sizePx / 2);
  return (circumferenceM * Math.cos((latDeg * Math.PI) / 180)) / 2 ** tile.z / tile.sizePx;
}

/** Fractional cells of one raster at the nodes of a net over a tile, row by row; NaN where there is no way there. */
export interface TileNet {
  readonly cols: Float64Array;
  readonly rows: Float64Array;
}

/** Exact at 17 x 17 nodes; between them bilinear, off by less than a millimetre at the zooms where cells show. */
export function tileNet(tile: MapTile, raster: Raster): TileNet {
  const nodes = netIntervals + 1;
  const cols = new Float64Array(nodes * nodes);
  const rows = new Float64Array(nodes * nodes);
  for (let j = 0; j < nodes; j++) {
    for (let i = 0; i < nodes; i++) {
      const scale = tile.sizePx / netIntervals;
      const [col, row] = cellOfPosition(raster, positionInTile(tile, i * scale, j * scale));
      cols[j * nodes + i] = col;
      rows[j * nodes + i] = row;
    }
  }
  return { cols, rows };
}

/** False where a net's tile certainly shows nothing of the raster, nor of what lies `margin` cells beside it. */
export function reaches({ cols, rows }: TileNet, { widthPx, heightPx }: Raster, margin: number): boolean {
  const overlaps = (at: Float64Array, size: number): boolean =>
    at.some((value) => value > -margin) && at.some((value) => value < size + margin);
  return overlaps(cols, widthPx) && overlaps(rows, heightPx);
}
