import type { LngLat } from '../domain/coordinates';
import type { Station } from '../domain/station';

const meanRadiusM = 6_371_008.8;
const rad = Math.PI / 180;

export interface XY {
  readonly x: number;
  readonly y: number;
}

/** The line ready to be seen from any place on Earth. */
export interface LineOnSphere {
  readonly alongM: Float64Array;
  /** Per station: sin and cos of latitude, sin and cos of longitude. */
  readonly trig: Float64Array;
}

export function lineOnSphere(stations: readonly Station[]): LineOnSphere {
  const trig = new Float64Array(stations.length * 4);
  const alongM = new Float64Array(stations.length);
  stations.forEach((station, i) => {
    alongM[i] = station.alongM;
    trig.set(trigOf(station.position), i * 4);
  });
  return { alongM, trig };
}

/** Straight through the sphere, metres: within walking distance the way over ground, to half a hundredth. */
export function chordM(a: LngLat, b: LngLat): number {
  const [[sinLatA, cosLatA, sinLngA, cosLngA], [sinLatB, cosLatB, sinLngB, cosLngB]] = [trigOf(a), trigOf(b)];
  const eastward = cosLatA * sinLngA - cosLatB * sinLngB;
  return meanRadiusM * Math.hypot(cosLatA * cosLngA - cosLatB * cosLngB, eastward, sinLatA - sinLatB);
}

function trigOf([lngDeg, latDeg]: LngLat): [number, number, number, number] {
  const [lat, lng] = [latDeg * rad, lngDeg * rad];
  return [Math.sin(lat), Math.cos(lat), Math.sin(lng), Math.cos(lng)];
}

/**
 * Orthographic view from straight above an origin, metres east and north: within a few hundred metres of it true to half
 * a hundredth, at the poles and the 180th meridian as anywhere. NaN for the far side of the Earth.
 * @source J.P. Snyder, "Map projections: a working manual", USGS Professional Paper 1395 (1987), equations 20-3 and 20-4.
 */
function seenFrom(origin: LngLat): (trig: ArrayLike<number>, offset: number) => XY {
  const [sinLat0, cosLat0, sinLng0, cosLng0] = trigOf(origin);
  return (trig, offset) => {
    const [sinLat, cosLat] = [trig[offset]!, trig[offset + 1]!];
    const [sinLng, cosLng] = [trig[offset + 2]!, trig[offset + 3]!];
    const cosTurn = cosLng * cosLng0 + sinLng * sinLng0;
    const sinTurn = sinLng * cosLng0 - cosLng * sinLng0;
    const ahead = sinLat0 * sinLat + cosLat0 * cosLat * cosTurn;
    if (ahead < 0) return { x: NaN, y: NaN };
    return {
      x: meanRadiusM * cosLat * sinTurn,
      y: meanRadiusM * (cosLat0 * sinLat - sinLat0 * cosLat * cosTurn),
    };
  };
}

/** The stations and a drawn shape on one plane around the shape's first position. */
export function onOnePlane(
  line: LineOnSphere,
  positions: readonly LngLat[],
): { readonly line: readonly XY[]; readonly shape: readonly XY[] } {
  const origin = positions[0];
  if (origin === undefined) return { line: [], shape: [] };
  const see = seenFrom(origin);
  return {
    line: Array.from(line.alongM, (_, i) => see(line.trig, i * 4)),
    shape: positions.map((position) => see(trigOf(position), 0)),
  };
}

/** How far along a-b (0 to 1) the place nearest to p is, and how far p is from it. */
export function nearestOnPiece(a: XY, b: XY, p: XY): { readonly fraction: number; readonly offsetM: number } {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const squared = dx * dx + dy * dy;
  const dot = (p.x - a.x) * dx + (p.y - a.y) * dy;
  const fraction = squared === 0 ? 0 : Math.min(Math.max(dot / squared, 0), 1);
  return { fraction, offsetM: Math.hypot(p.x - a.x - fraction * dx, p.y - a.y - fraction * dy) };
}

/** How far along a-b (0 to 1) it is cut by c-d; null if it is not. */
export function cutFraction(a: XY, b: XY, c: XY, d: XY): number | null {
  const cross = (b.x - a.x) * (d.y - c.y) - (b.y - a.y) * (d.x - c.x);
  const t = ((c.x - a.x) * (d.y - c.y) - (c.y - a.y) * (d.x - c.x)) / cross;
  const u = ((c.x - a.x) * (b.y - a.y) - (c.y - a.y) * (b.x - a.x)) / cross;
  // Beside one another both are no number or without end, which is not between 0 and 1.
  return t >= 0 && t <= 1 && u >= 0 && u <= 1 ? t : null;
}

/** Whether a closed shape holds a point (ray casting). */
export function holds(shape: readonly XY[], p: XY): boolean {
  let inside = false;
  for (let i = 1; i < shape.length; i++) {
    const [a, b] = [shape[i - 1]!, shape[i]!];
    if (a.y > p.y !== b.y > p.y && p.x < a.x + ((p.y - a.y) / (b.y - a.y)) * (b.x - a.x)) inside = !inside;
  }
  return inside;
}
