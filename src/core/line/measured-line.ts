import type { LngLat } from '../domain/coordinates';
import { distanceM, edge, type Edge } from './geodesic';

/** A line with its distances: geodesic from vertex to vertex. Build it once and ask it often. */
export interface MeasuredLine {
  readonly positions: readonly LngLat[];
  /** Distance of each vertex from the start, never falling. Metres. */
  readonly vertexAlongM: Float64Array;
  readonly lengthM: number;
  /** The edge from vertex i to vertex i + 1. */
  edge(i: number): Edge;
  /** Index of the edge that holds a distance; edges without length are passed over where possible. -1: no edges. */
  edgeIndexAt(alongM: number): number;
  /** Position and direction of travel; distances outside the line give its ends. Throws on a line without points. */
  at(alongM: number): { readonly position: LngLat; readonly bearingDeg: number };
}

/** Distance of each vertex from the start. Metres, one per position. */
export function vertexAlongM(positions: readonly LngLat[]): Float64Array {
  const alongM = new Float64Array(positions.length);
  let sumM = 0;
  positions.forEach((position, i) => {
    const before = positions[i - 1];
    if (before !== undefined) sumM += distanceM(before, position);
    alongM[i] = sumM;
  });
  return alongM;
}

export function lineLengthM(positions: readonly LngLat[]): number {
  return vertexAlongM(positions).at(-1) ?? 0;
}

export function measureLine(positions: readonly LngLat[]): MeasuredLine {
  const edges = positions.slice(1).map((to, i) => edge(positions[i]!, to));
  const alongM = new Float64Array(positions.length);
  edges.forEach((each, i) => (alongM[i + 1] = alongM[i]! + each.lengthM));
  const lengthM = alongM.at(-1) ?? 0;

  let last = 0;
  /** Last edge that starts at or before the distance; at the very end, the last edge that has a length. */
  const edgeIndexAt = (distance: number): number => {
    if (positions.length < 2) return -1;
    // Most ask on and on along the line.
    if (alongM[last]! <= distance && distance < alongM[last + 1]!) return last;
    let low = 0;
    let high = positions.length - 2;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (alongM[middle]! <= distance) low = middle;
      else high = middle - 1;
    }
    while (low > 0 && alongM[low] === alongM[low + 1]) low -= 1;
    last = low;
    return low;
  };

  return {
    positions,
    vertexAlongM: alongM,
    lengthM,
    edge: (i) => edges[i]!,
    edgeIndexAt,
    at(distance) {
      const first = positions[0];
      if (first === undefined) throw new RangeError('a line without points has no positions');
      const clamped = Math.min(Math.max(distance, 0), lengthM);
      const i = edgeIndexAt(clamped);
      if (i < 0) return { position: first, bearingDeg: NaN };
      return edges[i]!.at(clamped - alongM[i]!);
    },
  };
}

/** Position at a distance from the start; distances outside the line give its ends. */
export function positionAt(positions: readonly LngLat[], alongM: number): LngLat {
  return measureLine(positions).at(alongM).position;
}
