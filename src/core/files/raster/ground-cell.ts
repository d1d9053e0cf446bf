import type { Affine, MapFrame } from '../../domain/raster';
import { cellCentre } from '../../domain/raster';

export interface PlacedCells {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly affine: Affine;
  readonly frame: MapFrame;
}

/** WGS 84 (NIMA TR8350.2): equatorial radius in metres and first eccentricity squared. */
const a = 6378137;
const e2 = 0.0066943799901413165;

/**
 * Mean side of the cell at the raster's centre, metres on the ground, from the positions of its neighbours by the
 * ellipsoid's radii of curvature there. NaN where the centre cannot be projected.
 */
export function groundCellM(grid: {
  widthPx: number;
  heightPx: number;
  affine: Affine;
  frame: MapFrame;
}): number {
  const col = grid.widthPx / 2 - 0.5;
  const row = grid.heightPx / 2 - 0.5;
  const side = (dCol: number, dRow: number) => {
    const from = grid.frame.toLngLat(cellCentre(grid.affine, [col - dCol, row - dRow]));
    const to = grid.frame.toLngLat(cellCentre(grid.affine, [col + dCol, row + dRow]));
    return groundDistanceM(from, to);
  };
  return (side(0.5, 0) + side(0, 0.5)) / 2;
}

/** Over one cell only: the ellipsoid as flat. */
function groundDistanceM(from: readonly [number, number], to: readonly [number, number]): number {
  const rad = Math.PI / 180;
  const lat = ((from[1] + to[1]) / 2) * rad;
  const w2 = 1 - e2 * Math.sin(lat) ** 2;
  const east = (((to[0] - from[0] + 540) % 360) - 180) * rad * Math.cos(lat) * (a / Math.sqrt(w2));
  const north = (to[1] - from[1]) * rad * ((a * (1 - e2)) / w2 ** 1.5);
  return Math.hypot(east, north);
}
