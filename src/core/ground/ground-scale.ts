import type { LngLat } from '../domain/coordinates';
import { cellOf, type Raster } from '../domain/raster';

/** What one cell measures on the ground at one place, and back: metres to true east and north on the ellipsoid. */
export interface GroundScale {
  readonly eastPerCol: number;
  readonly northPerCol: number;
  readonly eastPerRow: number;
  readonly northPerRow: number;
  readonly colPerEast: number;
  readonly colPerNorth: number;
  readonly rowPerEast: number;
  readonly rowPerNorth: number;
}

/** WGS 84 (EPSG:7030). */
const semiMajorM = 6378137;
const flattening = 1 / 298.257223563;
const eccentricitySq = flattening * (2 - flattening);

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

type Vector = readonly [number, number, number];

function geocentric([lngDeg, latDeg]: LngLat): Vector {
  const lat = radians(latDeg);
  const lng = radians(lngDeg);
  const n = semiMajorM / Math.sqrt(1 - eccentricitySq * Math.sin(lat) ** 2);
  return [
    n * Math.cos(lat) * Math.cos(lng),
    n * Math.cos(lat) * Math.sin(lng),
    n * (1 - eccentricitySq) * Math.sin(lat),
  ];
}

/** Metres east and north from one position to another close by. */
function eastNorth(from: LngLat, to: LngLat, [lngDeg, latDeg]: LngLat): readonly [number, number] {
  const [x0, y0, z0] = geocentric(from);
  const [x1, y1, z1] = geocentric(to);
  const dx = x1 - x0;
  const dy = y1 - y0;
  const lng = radians(lngDeg);
  const lat = radians(latDeg);
  const east = -Math.sin(lng) * dx + Math.cos(lng) * dy;
  const north = -Math.sin(lat) * (Math.cos(lng) * dx + Math.sin(lng) * dy) + Math.cos(lat) * (z1 - z0);
  return [east, north];
}

/** Position of a fractional cell coordinate (cell centres at +0.5). */
export function positionOfCell({ affine, frame }: Raster, col: number, row: number): LngLat {
  return frame.toLngLat([
    affine.x0 + col * affine.colX + row * affine.rowX,
    affine.y0 + col * affine.colY + row * affine.rowY,
  ]);
}

/** Fractional cell coordinate (cell centres at +0.5) of a position; may lie outside the raster, or be NaN. */
export function cellOfPosition(raster: Raster, position: LngLat): readonly [number, number] {
  const { affine, frame } = raster;
  const xy = frame.fromLngLat(position);
  if (!frame.isGeographic) return cellOf(affine, xy);
  // A geographic raster may be counted beyond 180 degrees, or end there: take the turn that lies nearest to it.
  const middleX = affine.x0 + (raster.widthPx * affine.colX + raster.heightPx * affine.rowX) / 2;
  return cellOf(affine, [xy[0] + 360 * Math.round((middleX - xy[0]) / 360), xy[1]]);
}

/**
 * The raster's scale and turn against true north at a fractional cell coordinate, by differences over about 100 m (at
 * least two cells) of the frame's own way to WGS 84. Holds for any frame, by the Jacobian of the projection: unequal
 * degrees, web Mercator's stretch, feet, meridian convergence, the surroundings of a pole. All NaN where the frame has none.
 */
export function groundScaleAt(raster: Raster, col: number, row: number): GroundScale {
  const reach = Math.max(1, Math.ceil(50 / raster.cellM));
  const here = positionOfCell(raster, col, row);
  const along = (dCol: number, dRow: number) =>
    eastNorth(
      positionOfCell(raster, col - dCol, row - dRow),
      positionOfCell(raster, col + dCol, row + dRow),
      here,
    );
  const [colE, colN] = along(reach, 0);
  const [rowE, rowN] = along(0, reach);
  const eastPerCol = colE / (2 * reach);
  const northPerCol = colN / (2 * reach);
  const eastPerRow = rowE / (2 * reach);
  const northPerRow = rowN / (2 * reach);
  const det = eastPerCol * northPerRow - eastPerRow * northPerCol;
  return {
    eastPerCol,
    northPerCol,
    eastPerRow,
    northPerRow,
    colPerEast: northPerRow / det,
    colPerNorth: -eastPerRow / det,
    rowPerEast: -northPerCol / det,
    rowPerNorth: eastPerCol / det,
  };
}

/**
 * Scales of one raster, remembered by neighbourhood: nodes some hundred metres apart, between which the scale is the same
 * to a few in 100 000 (anywhere but in sight of a pole). On cells larger than that every cell is its own node.
 */
export class GroundScales {
  readonly #nodes = new Map<number, GroundScale>();
  readonly #nodeCells: number;
  readonly #across: number;
  #lastKey = -1;
  #last: GroundScale | null = null;

  constructor(readonly raster: Raster) {
    this.#nodeCells = Math.max(1, Math.min(64, Math.floor(nodeM / raster.cellM)));
    this.#across = Math.ceil(raster.widthPx / this.#nodeCells) + 1;
  }

  near(col: number, row: number): GroundScale {
    const nodeCol = Math.floor(col / this.#nodeCells);
    const nodeRow = Math.floor(row / this.#nodeCells);
    const key = nodeRow * this.#across + nodeCol;
    if (key === this.#lastKey && this.#last !== null) return this.#last;
    let scale = this.#nodes.get(key);
    if (scale === undefined) {
      const half = this.#nodeCells / 2;
      scale = groundScaleAt(this.raster, nodeCol * this.#nodeCells + half, nodeRow * this.#nodeCells + half);
      this.#nodes.set(key, scale);
    }
    this.#lastKey = key;
    this.#last = scale;
    return scale;
  }
}

/** Ground between the places where the scale is computed anew, metres. */
const nodeM = 250;
