import { length, lineSliceAlong, lineString } from '@turf/turf';
import type { LngLat } from '../domain/coordinates';
import type { LinePoint } from '../domain/project';
import { measureLine, type MeasuredLine } from './measured-line';

/** A point of a slice; `isBorder` where the line itself has no vertex. */
export interface SlicePoint extends LinePoint {
  readonly isBorder: boolean;
}

const sameVertexM = 0.001;

/**
 * The line cut at the distances given (geodesic metres, rising), its ends left out: neighbours share their border. The
 * elevation and time of a border are those between its neighbours, where both are known.
 */
export function sliceLine(points: readonly LinePoint[], bordersM: readonly number[]): SlicePoint[][] {
  const line = measureLine(points.map(({ position }) => position));
  const borders = bordersM.filter((alongM) => alongM > sameVertexM && alongM < line.lengthM - sameVertexM);
  const slices: SlicePoint[][] = [[]];
  let next = 0;
  points.forEach((point, i) => {
    const hereM = line.vertexAlongM[i]!;
    for (; (borders[next] ?? Infinity) < hereM - sameVertexM; next++) {
      const border = pointAt(line, points, borders[next]!);
      slices.at(-1)!.push(border);
      slices.push([border]);
    }
    const vertex = { ...point, isBorder: false };
    slices.at(-1)!.push(vertex);
    for (; (borders[next] ?? Infinity) <= hereM + sameVertexM; next++)
      if (slices.at(-1)!.length > 1) slices.push([vertex]);
  });
  return slices;
}

function pointAt(line: MeasuredLine, points: readonly LinePoint[], alongM: number): SlicePoint {
  const i = line.edgeIndexAt(alongM);
  const [a, b] = [points[i]!, points[i + 1]!];
  const fraction = (alongM - line.vertexAlongM[i]!) / line.edge(i).lengthM;
  const between = (from: number | null, to: number | null) =>
    from === null || to === null ? null : from + fraction * (to - from);
  return {
    position: cutEdge(a.position, b.position, fraction),
    elevationM: between(a.elevationM, b.elevationM),
    timeMs: between(a.timeMs, b.timeMs),
    isBorder: true,
  };
}

/**
 * Where Turf cuts an edge. It is given a share of the edge, not metres: its sphere, up to 0.56 % off along the way, then moves
 * the cut by less than a centimetre to the side on an edge of 5 km.
 */
function cutEdge(from: LngLat, to: LngLat, fraction: number): LngLat {
  const edge = lineString([[...from], [...to]]);
  const [lngDeg, latDeg] = lineSliceAlong(edge, 0, fraction * length(edge)).geometry.coordinates.at(-1)!;
  return [withinTurn(lngDeg!), latDeg!];
}

/** Turf counts on beyond the 180th meridian. */
const withinTurn = (lngDeg: number): number => lngDeg - 360 * Math.round(lngDeg / 360);
