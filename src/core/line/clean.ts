import type { LngLat } from '../domain/coordinates';
import type { LinePoint } from '../domain/project';
import { distanceM } from './geodesic';

/** Two points closer than this are one: far below what any receiver or raster resolves (judgement). */
export const samePlaceM = 0.001;

export interface DroppedPoint {
  /** Index into the points given. */
  readonly index: number;
  readonly why: 'not a number' | 'out of range' | 'repeated';
}

export interface Cleaned {
  readonly points: readonly LinePoint[];
  readonly dropped: readonly DroppedPoint[];
}

/** Drops positions that are none, and points that repeat the one before; order and everything else are kept. */
export function cleanPoints(points: readonly LinePoint[]): Cleaned {
  const kept: LinePoint[] = [];
  const dropped: DroppedPoint[] = [];
  points.forEach((point, index) => {
    const why = fault(point.position, kept.at(-1)?.position);
    if (why === null) kept.push(point);
    else dropped.push({ index, why });
  });
  return { points: kept, dropped };
}

function fault(position: LngLat, before: LngLat | undefined): DroppedPoint['why'] | null {
  const [lngDeg, latDeg] = position;
  if (!Number.isFinite(lngDeg) || !Number.isFinite(latDeg)) return 'not a number';
  if (Math.abs(latDeg) > 90 || Math.abs(lngDeg) > 180) return 'out of range';
  if (before !== undefined && isSamePlace(before, position)) return 'repeated';
  return null;
}

/** A degree of latitude has 110 574 m or more: most points need no geodesic to be told apart. */
const isSamePlace = (a: LngLat, b: LngLat): boolean =>
  Math.abs(a[1] - b[1]) * 110_574 < 2 * samePlaceM && distanceM(a, b) < samePlaceM;
