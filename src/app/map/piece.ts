import type { LngLat } from '../../core/domain/coordinates';
import type { LinePoint } from '../../core/domain/project';

/** Points handed to the pointer at one time: handles of a long recorded track would hide one another, and the map. */
export const pieceMax = 60;

/** A part of the line whose points can be taken hold of. */
export interface Piece {
  readonly first: number;
  readonly count: number;
}

/** The piece around one point: the whole line where it is short. */
export function pieceAround(pointCount: number, index: number): Piece {
  const count = Math.min(pointCount, pieceMax);
  const first = Math.max(0, Math.min(pointCount - count, index - Math.floor(count / 2)));
  return { first, count };
}

/**
 * The line with the piece's new positions. Points that did not move keep their elevation and time; a point that moved or is
 * new was never measured there.
 */
export function withPiece(
  points: readonly LinePoint[],
  { first, count }: Piece,
  positions: readonly LngLat[],
): { readonly points: readonly LinePoint[]; readonly name: string } {
  const old = points.slice(first, first + count);
  const isAt = (point: LinePoint | undefined, position: LngLat | undefined) =>
    point !== undefined &&
    position !== undefined &&
    Math.abs(point.position[0] - position[0]) < 2e-9 &&
    Math.abs(point.position[1] - position[1]) < 2e-9;
  const shorter = Math.min(old.length, positions.length);
  let head = 0;
  while (head < shorter && isAt(old[head], positions[head])) head++;
  let tail = 0;
  while (tail < shorter - head && isAt(old.at(-1 - tail), positions.at(-1 - tail))) tail++;
  const fresh = positions
    .slice(head, positions.length - tail)
    .map((position): LinePoint => ({ position, elevationM: null, timeMs: null }));
  const name =
    positions.length > old.length
      ? `insert point ${first + head + 1}`
      : positions.length < old.length
        ? `delete point ${first + head + 1}`
        : `move point ${first + head + 1}`;
  return {
    points: [...points.slice(0, first + head), ...fresh, ...points.slice(first + count - tail)],
    name,
  };
}

/** The point nearest to a place of the map, near enough for choosing what to show. */
export function nearestIndex(points: readonly LinePoint[], at: LngLat): number {
  let best = Infinity;
  let index = 0;
  for (const [i, { position }] of points.entries()) {
    const off = Math.hypot(position[0] - at[0], position[1] - at[1]);
    if (off < best) [best, index] = [off, i];
  }
  return index;
}
