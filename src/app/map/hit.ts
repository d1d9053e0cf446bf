import type { Station } from '../../core/domain/station';

/** A line laid out for pointing at: Web Mercator coordinates, 0 to 1 over the world, of every station. */
export interface PointableLine {
  readonly alongM: Float64Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** Web Mercator, 0 to 1 (EPSG:3857 scaled): x from the 180th meridian east, y from the north down. */
export const mercator = ([lngDeg, latDeg]: readonly [number, number]): [x: number, y: number] => [
  (lngDeg + 180) / 360,
  0.5 - Math.asinh(Math.tan((latDeg * Math.PI) / 180)) / (2 * Math.PI),
];

export function pointableLine(stations: readonly Station[]): PointableLine {
  const line = {
    alongM: new Float64Array(stations.length),
    x: new Float64Array(stations.length),
    y: new Float64Array(stations.length),
  };
  stations.forEach(({ alongM, position }, i) => {
    const [x, y] = mercator(position);
    line.alongM[i] = alongM;
    line.x[i] = x;
    line.y[i] = y;
  });
  return line;
}

/**
 * Place on the line nearest to a point of the map.
 *
 * @param at longitude and latitude pointed at
 * @param reach how far off it may be, in the same unit as x and y
 * @returns null where the line is farther than that
 */
export function alongAt(line: PointableLine, at: readonly [number, number], reach: number): number | null {
  const [px, py] = mercator(at);
  let best = reach * reach;
  let alongM: number | null = null;
  for (let i = 0; i + 1 < line.x.length; i++) {
    const ax = line.x[i] ?? 0;
    const ay = line.y[i] ?? 0;
    // Across the 180th meridian the short way.
    const turn = Math.round(px - ax);
    const dx = wrap((line.x[i + 1] ?? 0) - ax);
    const dy = (line.y[i + 1] ?? 0) - ay;
    const qx = px - turn - ax;
    const qy = py - ay;
    const square = dx * dx + dy * dy;
    const t = square === 0 ? 0 : Math.min(1, Math.max(0, (qx * dx + qy * dy) / square));
    const off = (qx - t * dx) ** 2 + (qy - t * dy) ** 2;
    if (off <= best) {
      best = off;
      const fromM = line.alongM[i] ?? 0;
      alongM = fromM + t * ((line.alongM[i + 1] ?? 0) - fromM);
    }
  }
  return alongM;
}

const wrap = (d: number): number => d - Math.round(d);
