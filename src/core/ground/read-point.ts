import type { LngLat } from '../domain/coordinates';
import { cellOfPosition } from './ground-scale';
import { betweenCentres } from './nine-cells';
import type { Layer, Terrain } from './terrain';

/** What the terrain says at one place. null where it has no data. */
export interface GroundPoint {
  readonly elevationM: number | null;
  readonly slopeDeg: number | null;
  readonly aspectDeg: number | null;
  readonly curvaturePerM: number | null;
  /** Which raster, index into the terrain list. */
  readonly rasterIndex: number | null;
}

export const noGround: GroundPoint = {
  elevationM: null,
  slopeDeg: null,
  aspectDeg: null,
  curvaturePerM: null,
  rasterIndex: null,
};

/** Bilinear between the four cell centres about a fractional cell coordinate, metres; NaN when one that takes part is missing. */
export function bilinearM({ view }: Layer, col: number, row: number): number {
  const c = Math.floor(col - 0.5);
  const r = Math.floor(row - 0.5);
  const east = col - 0.5 - c;
  const northM = betweenCentres(view.elevationM(c, r), view.elevationM(c + 1, r), east);
  const southM = betweenCentres(view.elevationM(c, r + 1), view.elevationM(c + 1, r + 1), east);
  return betweenCentres(northM, southM, row - 0.5 - r);
}

/**
 * The ground at a place: elevation bilinear between cell centres; slope, aspect and curvature of the cell that holds the
 * place. The finest raster that has both answers; where none has a slope, the finest that has an elevation.
 */
export function readPoint(terrain: Terrain, position: LngLat): GroundPoint {
  let elevationOnly = noGround;
  for (const layer of terrain.layers) {
    const cell = cellOfPosition(layer.raster, position);
    const col = cell[0];
    const row = cell[1];
    if (!layer.holds(col, row)) continue;
    const { cells } = layer;
    if (cells.moveTo(Math.floor(col), Math.floor(row))) {
      const { slopeDeg, aspectDeg, curvaturePerM } = cells;
      const elevationM = cells.elevationM(col, row);
      return { elevationM, slopeDeg, aspectDeg, curvaturePerM, rasterIndex: layer.index };
    }
    const elevationM = bilinearM(layer, col, row);
    if (elevationOnly === noGround && !Number.isNaN(elevationM))
      elevationOnly = { ...noGround, elevationM, rasterIndex: layer.index };
  }
  return elevationOnly;
}
