import geographiclib from 'geographiclib-geodesic';
import type { LngLat } from '../domain/coordinates';

const { Geodesic } = geographiclib;
/** Its types call every output optional; those asked for are always there. */
const wgs84 = Geodesic.WGS84;

/** The same meridian, as -180 <= longitude < 180. Degrees. */
export function wrapLngDeg(lngDeg: number): number {
  return lngDeg - 360 * Math.floor((lngDeg + 180) / 360);
}

/** Any angle, as 0 <= bearing < 360. Degrees. */
export function wrapBearingDeg(bearingDeg: number): number {
  const wrapped = bearingDeg - 360 * Math.floor(bearingDeg / 360);
  return wrapped >= 360 ? 0 : wrapped;
}

/** How far a direction turns, -180 < turn <= 180, right is positive. Degrees. */
export function turnDeg(fromBearingDeg: number, toBearingDeg: number): number {
  const turn = wrapBearingDeg(toBearingDeg - fromBearingDeg);
  return turn > 180 ? turn - 360 : turn;
}

/**
 * Length of the shortest way over the WGS 84 ellipsoid. Metres.
 * @source C.F.F. Karney, "Algorithms for geodesics", J. Geodesy 87 (2013) 43-55.
 */
export function distanceM(a: LngLat, b: LngLat): number {
  return wgs84.Inverse(a[1], a[0], b[1], b[0], Geodesic.DISTANCE).s12!;
}

/** Direction in which the shortest way from a to b leaves a, clockwise from true north, 0 to 360. NaN if a is b. */
export function bearingDeg(a: LngLat, b: LngLat): number {
  const way = wgs84.Inverse(a[1], a[0], b[1], b[0], Geodesic.DISTANCE | Geodesic.AZIMUTH);
  return way.s12! === 0 ? NaN : wrapBearingDeg(way.azi1!);
}

/** The shortest way from a to b, ready to be walked along. */
export interface Edge {
  readonly lengthM: number;
  /** Direction of travel at a and at b, clockwise from true north, 0 to 360. */
  readonly leavesDeg: number;
  readonly arrivesDeg: number;
  /** Position and direction of travel at a distance from a. */
  at(alongM: number): { readonly position: LngLat; readonly bearingDeg: number };
}

export function edge(a: LngLat, b: LngLat): Edge {
  const way = wgs84.Inverse(a[1], a[0], b[1], b[0], Geodesic.DISTANCE | Geodesic.AZIMUTH);
  let line: ReturnType<typeof wgs84.DirectLine> | null = null;
  return {
    lengthM: way.s12!,
    leavesDeg: wrapBearingDeg(way.azi1!),
    arrivesDeg: wrapBearingDeg(way.azi2!),
    at(alongM) {
      line ??= wgs84.DirectLine(a[1], a[0], way.azi1!, way.s12!);
      const place = line.Position(alongM, Geodesic.LATITUDE | Geodesic.LONGITUDE | Geodesic.AZIMUTH);
      return {
        position: [wrapLngDeg(place.lon2!), place.lat2!],
        bearingDeg: wrapBearingDeg(place.azi2!),
      };
    },
  };
}
