import type { LinePoint } from '../domain/project';
import { cross, dot, minus, nearestOnChord, size, toXyz, type Xyz } from './earth-centred';

/**
 * The line with fewer points: none that is left out lies farther from the new line than the tolerance. Both ends stay.
 * @source D.H. Douglas, T.K. Peucker, "Algorithms for the reduction of the number of points required to represent a
 * digitized line or its caricature", Cartographica 10 (1973) 112-122.
 */
export function simplifyLine(points: readonly LinePoint[], toleranceM: number): LinePoint[] {
  if (points.length < 3) return [...points];
  const places = points.map(({ position }) => toXyz(position));
  const keep = new Uint8Array(points.length);
  keep[0] = 1;
  keep[points.length - 1] = 1;
  const spans: [from: number, to: number][] = [[0, points.length - 1]];
  for (let span = spans.pop(); span !== undefined; span = spans.pop()) {
    const [from, to] = span;
    const far = farthest(places, from, to);
    if (far === null || far.offsetM <= toleranceM) continue;
    keep[far.index] = 1;
    spans.push([from, far.index], [far.index, to]);
  }
  return points.filter((_, i) => keep[i] === 1);
}

function farthest(
  places: readonly Xyz[],
  from: number,
  to: number,
): { index: number; offsetM: number } | null {
  const [a, b] = [places[from]!, places[to]!];
  const normal = cross(a, minus(b, a));
  const normalSize = size(normal);
  let most: { index: number; offsetM: number } | null = null;
  for (let index = from + 1; index < to; index++) {
    const offsetM = offsetFromEdgeM(a, b, places[index]!, normal, normalSize);
    if (most === null || offsetM > most.offsetM) most = { index, offsetM };
  }
  return most;
}

/**
 * Distance over the ground from p to the edge: beside it, from the plane through the edge and the Earth's centre, since
 * the straight chord runs below the ground; beyond its ends, from the nearer end.
 */
function offsetFromEdgeM(a: Xyz, b: Xyz, p: Xyz, normal: Xyz, normalSize: number): number {
  const { fraction, offsetM } = nearestOnChord(a, b, p);
  if (fraction <= 0 || fraction >= 1) return offsetM;
  return Math.abs(dot(minus(p, a), normal)) / normalSize;
}
