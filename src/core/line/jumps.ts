import type { LngLat } from '../domain/coordinates';
import { cutAt } from './from-track';
import { distanceM } from './geodesic';

/** Nobody records two points so far apart on foot: a wrong fix, or two tracks in one (judgement). */
export const jumpM = 100_000;

/** A leg too long to be one. */
export interface Jump {
  /** Index of the point behind the leg. */
  readonly index: number;
  readonly lengthM: number;
}

type Placed = { readonly position: LngLat };

export function jumpsOf(points: readonly Placed[]): Jump[] {
  return points.flatMap(({ position }, index) => {
    const before = points[index - 1];
    if (before === undefined || isNear(before.position, position)) return [];
    const lengthM = distanceM(before.position, position);
    return lengthM < jumpM ? [] : [{ index, lengthM }];
  });
}

/** The longest run of points between jumps, and whatever else is not farther from its ends than a jump: strays left out. */
export function withoutStrays<P extends Placed>(points: readonly P[]): P[] {
  const runs = cutAt(points, jumpsOf(points));
  const longest = runs.reduce((a, b) => (b.length > a.length ? b : a), []);
  const ends = [longest[0], longest.at(-1)].filter((end) => end !== undefined);
  const belongs = (run: readonly P[]) =>
    run.some(({ position }) => ends.some((end) => distanceM(end.position, position) < jumpM));
  return runs.filter(belongs).flat();
}

/** Certainly no jump: 0.89 degrees, of latitude or of longitude at its longest, are less than 100 km. */
const isNear = (a: LngLat, b: LngLat): boolean => Math.abs(a[0] - b[0]) + Math.abs(a[1] - b[1]) < 0.89;
