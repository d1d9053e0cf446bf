import type { GroundScale } from './ground-scale';

/** Rise per metre to true east and north. */
export interface Gradient {
  readonly east: number;
  readonly north: number;
}

const degrees = (radians: number): number => (radians * 180) / Math.PI;

/**
 * Gradient at the middle of a 3 x 3 window, in ground metres.
 *
 * @param z nine elevations, metres, row by row from the north-west; NaN anywhere gives NaN
 * @source B.K.P. Horn, "Hill shading and the reflectance map", Proc. IEEE 69 (1981) 14-47: weights 1 2 1 on either side.
 * Taken per cell, then brought to ground metres and true north, so that the window need not be square.
 */
export function hornGradient(z: ArrayLike<number>, scale: GroundScale): Gradient {
  const perCol = (z[2]! + 2 * z[5]! + z[8]! - z[0]! - 2 * z[3]! - z[6]!) / 8;
  const perRow = (z[6]! + 2 * z[7]! + z[8]! - z[0]! - 2 * z[1]! - z[2]!) / 8;
  return toGround(perCol, perRow, scale);
}

export function toGround(perCol: number, perRow: number, scale: GroundScale): Gradient {
  return {
    east: perCol * scale.colPerEast + perRow * scale.rowPerEast,
    north: perCol * scale.colPerNorth + perRow * scale.rowPerNorth,
  };
}

/** Degrees, 0 flat to 90 vertical. */
export function slopeDegOf({ east, north }: Gradient): number {
  return degrees(Math.atan(Math.hypot(east, north)));
}

/** Downhill direction, degrees clockwise from true north, 0 to below 360; NaN where there is none. */
export function downhillDegOf({ east, north }: Gradient): number {
  if (east === 0 && north === 0) return NaN;
  const bearing = degrees(Math.atan2(-east, -north));
  return bearing < 0 ? bearing + 360 : bearing;
}

/**
 * Profile curvature at the middle of a 3 x 3 window, 1/m, positive where the slope rolls over (convex); 0 where the ground
 * is level and no profile is defined.
 *
 * @param z nine elevations, metres, row by row from the north-west
 * @source L.W. Zevenbergen and C.R. Thorne, "Quantitative analysis of land surface topography", Earth Surface Processes
 * and Landforms 12 (1987) 47-56: -2 (D G^2 + E H^2 + F G H) / (G^2 + H^2), here with the second derivatives turned and
 * scaled to ground metres, which for a square grid to the north is the same.
 */
export function profileCurvaturePerM(z: ArrayLike<number>, scale: GroundScale): number {
  const { east, north } = toGround((z[5]! - z[3]!) / 2, (z[7]! - z[1]!) / 2, scale);
  const steepSq = east * east + north * north;
  if (steepSq === 0) return 0;
  // The step of one metre uphill, in cells.
  const length = Math.sqrt(steepSq);
  const col = (scale.colPerEast * east + scale.colPerNorth * north) / length;
  const row = (scale.rowPerEast * east + scale.rowPerNorth * north) / length;
  const colCol = z[3]! - 2 * z[4]! + z[5]!;
  const rowRow = z[1]! - 2 * z[4]! + z[7]!;
  const colRow = (z[0]! - z[2]! - z[6]! + z[8]!) / 4;
  return -(colCol * col * col + 2 * colRow * col * row + rowRow * row * row);
}
