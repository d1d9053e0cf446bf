import type { LngLat } from '../domain/coordinates';
import { cellOfPosition } from './ground-scale';
import type { Layer, Terrain } from './terrain';
import { downhillDegOf, hornGradient, profileCurvaturePerM, slopeDegOf } from './window';

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

/** Closer than this to a cell centre, in cells, the centre alone decides: a missing neighbour then takes no part. */
const onCentre = 1e-6;

/** Bilinear between the four cell centres about a fractional cell coordinate, metres; NaN when one that takes part is missing. */
export function bilinearM(layer: Layer, col: number, row: number): number {
  const c = Math.floor(col - 0.5);
  const r = Math.floor(row - 0.5);
  const u = snapped(col - 0.5 - c);
  const v = snapped(row - 0.5 - r);
  const { view } = layer;
  if (u > 0 && u < 1 && v > 0 && v < 1) {
    const north = (1 - u) * view.elevationM(c, r) + u * view.elevationM(c + 1, r);
    const south = (1 - u) * view.elevationM(c, r + 1) + u * view.elevationM(c + 1, r + 1);
    return (1 - v) * north + v * south;
  }
  // On the line between two centres, or on one: who has no weight has no say.
  const part = (weight: number, dCol: number, dRow: number): number =>
    weight === 0 ? 0 : weight * view.elevationM(c + dCol, r + dRow);
  return (
    part((1 - u) * (1 - v), 0, 0) + part(u * (1 - v), 1, 0) + part((1 - u) * v, 0, 1) + part(u * v, 1, 1)
  );
}

function snapped(fraction: number): number {
  if (fraction < onCentre) return 0;
  return fraction > 1 - onCentre ? 1 : fraction;
}

const windowZ = new Float64Array(9);

/**
 * The ground at a place: elevation bilinear between cell centres; slope, aspect and curvature of the cell that holds the
 * place. The finest raster that has both answers; where none has a slope, the finest that has an elevation.
 */
export function readPoint(terrain: Terrain, position: LngLat): GroundPoint {
  let elevationOnly = noGround;
  for (const layer of terrain.layers) {
    const [col, row] = cellOfPosition(layer.raster, position);
    if (!layer.holds(col, row)) continue;
    const elevationM = bilinearM(layer, col, row);
    if (Number.isNaN(elevationM)) continue;
    const cellCol = Math.floor(col);
    const cellRow = Math.floor(row);
    if (layer.view.readWindow(cellCol, cellRow, windowZ)) {
      const scale = layer.scales.near(cellCol + 0.5, cellRow + 0.5);
      const gradient = hornGradient(windowZ, scale);
      const slopeDeg = slopeDegOf(gradient);
      if (!Number.isNaN(slopeDeg)) {
        const aspectDeg = downhillDegOf(gradient);
        return {
          elevationM,
          slopeDeg,
          aspectDeg: Number.isNaN(aspectDeg) ? null : aspectDeg,
          curvaturePerM: profileCurvaturePerM(windowZ, scale),
          rasterIndex: layer.index,
        };
      }
    }
    if (elevationOnly === noGround) elevationOnly = { ...noGround, elevationM, rasterIndex: layer.index };
  }
  return elevationOnly;
}
