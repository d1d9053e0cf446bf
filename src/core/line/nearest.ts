import type { LngLat } from '../domain/coordinates';
import { nearestOnChord, toXyz } from './earth-centred';
import { bearingDeg, distanceM, turnDeg } from './geodesic';
import { measureLine, type MeasuredLine } from './measured-line';

export interface NearestPlace {
  /** Distance from the start of the line to the place nearest to the point. */
  readonly alongM: number;
  /** Distance from that place to the point, never negative. */
  readonly offsetM: number;
}

const meanRadiusM = 6_371_008.8;

/** The place on a line that is nearest to a point; null on a line without points. The first of several. */
export function nearestOnLine(positions: readonly LngLat[], point: LngLat): NearestPlace | null {
  return nearestOnMeasured(measureLine(positions), point);
}

/**
 * Straight chords through the Earth say quickly which edges can hold the nearest place (a geodesic of length d bulges
 * from its chord by about d^2 / 8R); only those are then measured over the ellipsoid. So neither the poles nor the
 * 180th meridian are special.
 */
export function nearestOnMeasured(line: MeasuredLine, point: LngLat): NearestPlace | null {
  const first = line.positions[0];
  if (first === undefined) return null;
  if (line.positions.length === 1) return { alongM: 0, offsetM: distanceM(first, point) };

  const p = toXyz(point);
  const chords: { readonly i: number; readonly atLeastM: number; readonly fraction: number }[] = [];
  let atMostM = Infinity;
  let a = toXyz(first);
  for (let i = 0; i + 1 < line.positions.length; i++) {
    const b = toXyz(line.positions[i + 1]!);
    const { fraction, offsetM } = nearestOnChord(a, b, p);
    const edgeM = line.vertexAlongM[i + 1]! - line.vertexAlongM[i]!;
    // Twice the bulge of a circle's arc: the ellipsoid's curvature differs by less than 1 %.
    const bulgeM = Math.min((edgeM * edgeM) / (4 * meanRadiusM), edgeM) + 1e-6;
    chords.push({ i, atLeastM: offsetM - bulgeM, fraction });
    atMostM = Math.min(atMostM, offsetM + bulgeM);
    a = b;
  }

  let best: NearestPlace | null = null;
  for (const chord of chords) {
    // Chords and geodesics order far places alike to within the flattening; hence the hundredth.
    if (chord.atLeastM > atMostM * 1.01) continue;
    const place = nearestOnEdge(line, chord.i, chord.fraction, point);
    if (best === null || place.offsetM < best.offsetM - 1e-9) best = place;
  }
  return best;
}

/**
 * Nearest place on one edge: from a first guess, step along the edge by the foot of the perpendicular on a sphere until
 * the step is nothing.
 * @source S. Baselga, J.C. Martinez-Llario, "Intersection and point-to-line solutions for geodesics on the ellipsoid",
 * Studia Geophysica et Geodaetica 62 (2018) 353-363.
 */
function nearestOnEdge(line: MeasuredLine, i: number, fraction: number, point: LngLat): NearestPlace {
  const edge = line.edge(i);
  let alongM = fraction * edge.lengthM;
  for (let round = 0; round < 20; round++) {
    const here = edge.at(alongM);
    const offsetM = distanceM(here.position, point);
    if (offsetM === 0) break;
    const angle = (turnDeg(here.bearingDeg, bearingDeg(here.position, point)) * Math.PI) / 180;
    const reach = offsetM / meanRadiusM;
    const stepM = meanRadiusM * Math.atan2(Math.sin(reach) * Math.cos(angle), Math.cos(reach));
    const nextM = Math.min(Math.max(alongM + stepM, 0), edge.lengthM);
    const moved = Math.abs(nextM - alongM);
    alongM = nextM;
    if (moved < 1e-6) break;
  }
  return {
    alongM: line.vertexAlongM[i]! + alongM,
    offsetM: distanceM(edge.at(alongM).position, point),
  };
}
