import type { LineStation } from '../domain/station';
import type { GroundPoint } from './read-point';

/** Angle between a direction of travel and the fall line, degrees, 0 straight up or down to 90 a traverse. */
export function betaDeg(bearingDeg: number, aspectDeg: number): number {
  const apart = (((bearingDeg - aspectDeg) % 180) + 180) % 180;
  return Math.min(apart, 180 - apart);
}

/**
 * Slope along the line at station i, degrees, up positive: between its neighbours on both sides, or on the one side that
 * has data from the same raster (heights of two rasters need not fit). null where neither has.
 */
export function gradeDeg(
  stations: readonly LineStation[],
  points: readonly GroundPoint[],
  i: number,
): number | null {
  const here = points[i]!;
  if (here.elevationM === null) return null;
  const isUsable = (k: number): boolean =>
    points[k] !== undefined && points[k].elevationM !== null && points[k].rasterIndex === here.rasterIndex;
  const from = isUsable(i - 1) ? i - 1 : i;
  const to = isUsable(i + 1) ? i + 1 : i;
  const runM = stations[to]!.alongM - stations[from]!.alongM;
  if (runM <= 0) return null;
  return (Math.atan2(points[to]!.elevationM! - points[from]!.elevationM!, runM) * 180) / Math.PI;
}
