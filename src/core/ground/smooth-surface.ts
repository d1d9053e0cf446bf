import type { Layer } from './terrain';

const z = new Float64Array(9);

/**
 * Elevation and gradient of a smooth surface through one layer: the quadratic B-spline over the 3 x 3 cells about the cell
 * that holds the place. Planes come out exactly; gradient and elevation belong together, so who follows the one down
 * never gains height in the other but by stepping over the bottom.
 *
 * @source C. de Boor, "A Practical Guide to Splines" (1978): uniform quadratic B-spline.
 */
export class SmoothSurface {
  elevationM = NaN;
  /** Rise per cell, eastward in the grid. */
  perCol = NaN;
  /** Rise per cell, southward in the grid. */
  perRow = NaN;

  /** @returns false where one of the nine cells is missing, outside or not in memory */
  read(layer: Layer, col: number, row: number): boolean {
    const c = Math.floor(col);
    const r = Math.floor(row);
    if (!layer.view.readWindow(c, r, z)) return false;
    const u = col - c - 0.5;
    const v = row - r - 0.5;
    const west = 0.5 * (0.5 - u) * (0.5 - u);
    const east = 0.5 * (0.5 + u) * (0.5 + u);
    const middle = 1 - west - east;
    const north = z[0]! * west + z[1]! * middle + z[2]! * east;
    const level = z[3]! * west + z[4]! * middle + z[5]! * east;
    const south = z[6]! * west + z[7]! * middle + z[8]! * east;
    const top = 0.5 * (0.5 - v) * (0.5 - v);
    const bottom = 0.5 * (0.5 + v) * (0.5 + v);
    const between = 1 - top - bottom;
    this.elevationM = north * top + level * between + south * bottom;
    this.perRow = (v - 0.5) * north - 2 * v * level + (v + 0.5) * south;
    const west3 = z[0]! * top + z[3]! * between + z[6]! * bottom;
    const middle3 = z[1]! * top + z[4]! * between + z[7]! * bottom;
    const east3 = z[2]! * top + z[5]! * between + z[8]! * bottom;
    this.perCol = (u - 0.5) * west3 - 2 * u * middle3 + (u + 0.5) * east3;
    return true;
  }
}
