import type { LinePoint } from '../domain/project';
import { edge } from './geodesic';

type Side = 180 | -180;

/**
 * A line cut where it crosses the 180th meridian, so that no part does (RFC 7946 §3.1.9). Points on the meridian take the
 * sign of their part; where none stands, one is added to both parts, on the shortest way.
 */
export function splitAtAntimeridian(points: readonly LinePoint[]): LinePoint[][] {
  const parts: LinePoint[][] = [];
  let part: LinePoint[] = [];
  let side = sideOf(points.find((point) => sideOf(point) !== null)) ?? 180;
  points.forEach((point, i) => {
    const before = points[i - 1];
    const next = sideOf(point);
    if (before !== undefined && next !== null && next !== side && crosses(side, before, point)) {
      const meridian = sideOf(before) === null ? before : crossing(before, point);
      if (meridian !== before) part.push(onSide(meridian, side));
      parts.push(part);
      part = [onSide(meridian, next)];
    }
    side = next ?? side;
    part.push(onSide(point, side));
  });
  if (part.length > 0) parts.push(part);
  return parts;
}

/** null: on the meridian itself. */
function sideOf(point: LinePoint | undefined): Side | null {
  if (point === undefined || Math.abs(point.position[0]) === 180) return null;
  return point.position[0] < 0 ? -180 : 180;
}

/** The side changes at the 180th meridian and not at the zero one. */
function crosses(side: Side, before: LinePoint, point: LinePoint): boolean {
  return Math.abs(onSide(before, side).position[0] - point.position[0]) > 180;
}

function onSide(point: LinePoint, side: Side): LinePoint {
  return Math.abs(point.position[0]) === 180 ? { ...point, position: [side, point.position[1]] } : point;
}

/** Where the shortest way from a to b crosses, by halving. */
function crossing(a: LinePoint, b: LinePoint): LinePoint {
  const way = edge(a.position, b.position);
  const isWest = a.position[0] < 0;
  let [low, high] = [0, way.lengthM];
  for (let round = 0; round < 60; round++) {
    const middle = (low + high) / 2;
    if (way.at(middle).position[0] < 0 === isWest) low = middle;
    else high = middle;
  }
  return { position: [180, way.at(low).position[1]], elevationM: null, timeMs: null };
}
