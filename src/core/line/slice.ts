import type { LinePoint } from '../domain/project';
import { measureLine, type MeasuredLine } from './measured-line';

/** A point of a slice; `isBorder` where the line itself has no vertex. */
export interface SlicePoint extends LinePoint {
  readonly isBorder: boolean;
}

const sameVertexM = 0.001;

/**
 * The line cut at the distances given, rising, its ends left out: neighbours share their border. Border points lie on the
 * geodesic; their elevation and time are those between the neighbours, where both are known.
 */
export function sliceLine(points: readonly LinePoint[], bordersM: readonly number[]): SlicePoint[][] {
  if (points.length < 2) return [points.map((point) => ({ ...point, isBorder: false }))];
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
    position: line.at(alongM).position,
    elevationM: between(a.elevationM, b.elevationM),
    timeMs: between(a.timeMs, b.timeMs),
    isBorder: true,
  };
}
