import { lineString, simplify } from '@turf/turf';

type Corner = [x: number, y: number];

/**
 * A line on a plane with only the corners that are seen, by Douglas and Peucker's way: none that is left out lies further than
 * `tolerance` (in the units of the plane) from the new line. For the eye only.
 */
export function fewerCorners(corners: readonly Readonly<Corner>[], tolerance: number): Corner[] {
  const own = corners.map(([x, y]): Corner => [x, y]);
  if (own.length < 3) return own;
  const kept = simplify(lineString(own), { tolerance, highQuality: true, mutate: true });
  return kept.geometry.coordinates as Corner[];
}
