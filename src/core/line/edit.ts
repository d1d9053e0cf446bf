import type { LngLat } from '../domain/coordinates';
import type { LinePoint } from '../domain/project';
import { samePlaceM } from './clean';
import { distanceM } from './geodesic';
import { sliceLine } from './slice';

/** Every edit gives a new list; what a new or moved point's height and time are, nobody knows. */
type Points = readonly LinePoint[];

const drawn = (position: LngLat): LinePoint => ({ position, elevationM: null, timeMs: null });

export function moveVertex(points: Points, index: number, position: LngLat): LinePoint[] {
  return points.map((point, i) => (i === index ? drawn(position) : point));
}

export function deleteVertex(points: Points, index: number): LinePoint[] {
  return points.filter((_, i) => i !== index);
}

export function extendLine(points: Points, end: 'start' | 'end', position: LngLat): LinePoint[] {
  return end === 'start' ? [drawn(position), ...points] : [...points, drawn(position)];
}

/** Latitude at which the web map ends (EPSG:3857): beyond it nothing can be drawn, nor taken hold of. */
export const mapEndDeg = 85.05;

export const isOnMap = ([, latDeg]: LngLat): boolean => Math.abs(latDeg) <= mapEndDeg;

/** Both halves; each has the point of the cut. Cut at or beyond an end, one half is empty. */
export function cutLine(points: Points, alongM: number): [LinePoint[], LinePoint[]] {
  const [before = [], after = []] = sliceLine(points, [alongM]).map((slice) =>
    slice.map(({ position, elevationM, timeMs }) => ({ position, elevationM, timeMs })),
  );
  return alongM <= 0 ? [[], before] : [before, after];
}

/** The second line after the first; a place they share is kept once. */
export function joinLines(first: Points, second: Points): LinePoint[] {
  const [end, start] = [first.at(-1), second[0]];
  const meet =
    end !== undefined && start !== undefined && distanceM(end.position, start.position) < samePlaceM;
  return [...first, ...(meet ? second.slice(1) : second)];
}

/** Walked the other way, the recorded times are not this line's. */
export function reverseLine(points: Points): LinePoint[] {
  return points.toReversed().map((point) => ({ ...point, timeMs: null }));
}
