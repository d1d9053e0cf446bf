import type { Layer } from './terrain';
import type { TileNet } from './relief-tile';
import { netIntervals } from './relief-tile';

/** What a pixel shows. */
export const pixelKind = { nothing: 0, edge: 1, hole: 2, ground: 3 } as const;

/** A tile's pixels as the terrain has them, row by row from the north-west. */
export interface ReliefPixels {
  readonly sizePx: number;
  readonly kinds: Uint8Array;
  /** Metres; NaN where kinds is not ground. */
  readonly elevationsM: Float32Array;
  /** Rise per metre to the east and to the north. */
  readonly gradE: Float32Array;
  readonly gradN: Float32Array;
}

/** Width of the hatched border outside a raster's edge, pixels. */
export const edgePx = 10;

export function emptyPixels(sizePx: number): ReliefPixels {
  const count = sizePx * sizePx;
  return {
    sizePx,
    kinds: new Uint8Array(count),
    elevationsM: new Float32Array(count).fill(NaN),
    gradE: new Float32Array(count),
    gradN: new Float32Array(count),
  };
}

const z = new Float64Array(9);

/**
 * Fills from one layer the pixels that no finer layer has filled. For the eye only: beside a hole the missing neighbours
 * are taken to be as high as the cell itself, so that the shading reaches the hole's rim.
 *
 * @param pixelM side of a pixel on the ground
 */
export function fillFrom(layer: Layer, net: TileNet, pixelM: number, pixels: ReliefPixels): void {
  const { raster, view } = layer;
  const { sizePx, kinds, elevationsM, gradE, gradN } = pixels;
  const { widthPx, heightPx } = raster;
  const nodes = netIntervals + 1;
  const side = sizePx / netIntervals;
  const margin = (edgePx * pixelM) / raster.cellM;
  for (let j = 0; j < netIntervals; j++) {
    for (let i = 0; i < netIntervals; i++) {
      const k = j * nodes + i;
      const c0 = net.cols[k]!;
      const c1 = net.cols[k + 1]!;
      const c2 = net.cols[k + nodes]!;
      const c3 = net.cols[k + nodes + 1]!;
      const r0 = net.rows[k]!;
      const r1 = net.rows[k + 1]!;
      const r2 = net.rows[k + nodes]!;
      const r3 = net.rows[k + nodes + 1]!;
      // A NaN in any corner fails these, too.
      const touches =
        Math.max(c0, c1, c2, c3) > -margin &&
        Math.min(c0, c1, c2, c3) < widthPx + margin &&
        Math.max(r0, r1, r2, r3) > -margin &&
        Math.min(r0, r1, r2, r3) < heightPx + margin;
      if (!touches) continue;
      // How far one pixel goes in cells, in the middle of this part of the net.
      const colPerX = (c1 + c3 - c0 - c2) / (2 * side);
      const colPerY = (c2 + c3 - c0 - c1) / (2 * side);
      const rowPerX = (r1 + r3 - r0 - r2) / (2 * side);
      const rowPerY = (r2 + r3 - r0 - r1) / (2 * side);
      for (let y = 0; y < side; y++) {
        const v = (y + 0.5) / side;
        const colFrom = c0 + (c2 - c0) * v;
        const colTo = c1 + (c3 - c1) * v;
        const rowFrom = r0 + (r2 - r0) * v;
        const rowTo = r1 + (r3 - r1) * v;
        let at = (j * side + y) * sizePx + i * side;
        for (let x = 0; x < side; x++, at++) {
          if (kinds[at] === pixelKind.ground) continue;
          const u = (x + 0.5) / side;
          const col = colFrom + (colTo - colFrom) * u;
          const row = rowFrom + (rowTo - rowFrom) * u;
          const c = Math.floor(col);
          const r = Math.floor(row);
          if (c < 0 || r < 0 || c >= widthPx || r >= heightPx) {
            if (col > -margin && row > -margin && col < widthPx + margin && row < heightPx + margin) {
              kinds[at] = Math.max(kinds[at]!, pixelKind.edge);
            }
            continue;
          }
          if (!view.readWindow(c, r, z) && !patchWindow(layer, c, r)) {
            kinds[at] = pixelKind.hole;
            continue;
          }
          const s = col - c - 0.5;
          const t = row - r - 0.5;
          const west = 0.5 * (0.5 - s) * (0.5 - s);
          const east = 0.5 * (0.5 + s) * (0.5 + s);
          const middle = 1 - west - east;
          const top = 0.5 * (0.5 - t) * (0.5 - t);
          const bottom = 0.5 * (0.5 + t) * (0.5 + t);
          const between = 1 - top - bottom;
          const zTop = z[0]! * west + z[1]! * middle + z[2]! * east;
          const zMid = z[3]! * west + z[4]! * middle + z[5]! * east;
          const zLow = z[6]! * west + z[7]! * middle + z[8]! * east;
          const perRow = (t - 0.5) * zTop - 2 * t * zMid + (t + 0.5) * zLow;
          const perCol =
            (s - 0.5) * (z[0]! * top + z[3]! * between + z[6]! * bottom) -
            2 * s * (z[1]! * top + z[4]! * between + z[7]! * bottom) +
            (s + 0.5) * (z[2]! * top + z[5]! * between + z[8]! * bottom);
          kinds[at] = pixelKind.ground;
          elevationsM[at] = zTop * top + zMid * between + zLow * bottom;
          gradE[at] = (perCol * colPerX + perRow * rowPerX) / pixelM;
          gradN[at] = -(perCol * colPerY + perRow * rowPerY) / pixelM;
        }
      }
    }
  }
}

/** Puts the cell's own height where a neighbour's is missing. @returns false when the cell itself is missing */
function patchWindow({ view }: Layer, col: number, row: number): boolean {
  const own = view.elevationM(col, row);
  if (Number.isNaN(own)) return false;
  for (let k = 0; k < 9; k++) {
    const neighbour = view.elevationM(col - 1 + (k % 3), row - 1 + Math.floor(k / 3));
    z[k] = Number.isNaN(neighbour) ? own : neighbour;
  }
  return true;
}
