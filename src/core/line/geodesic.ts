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

/**
 * On a short edge longitude and latitude run evenly: they leave the geodesic by at most 1.16 s^2 tan(lat) / 8R, here 0.6 mm
 * (158 m at 45 degrees).
 */
function isShort([, fromDeg]: LngLat, [, toDeg]: LngLat, lengthM: number): boolean {
  const tangent = Math.tan((Math.max(Math.abs(fromDeg), Math.abs(toDeg)) * Math.PI) / 180);
  return lengthM > 0 && lengthM < 1000 && lengthM ** 2 * tangent < 25_000;
}

/** Nearly all edges of recorded lines are short, and many stations stand on them; on others the library says where. */
export function edge(a: LngLat, b: LngLat): Edge {
  const way = wgs84.Inverse(a[1], a[0], b[1], b[0], Geodesic.DISTANCE | Geodesic.AZIMUTH);
  const lengthM = way.s12!;
  const leavesDeg = wrapBearingDeg(way.azi1!);
  const arrivesDeg = wrapBearingDeg(way.azi2!);
  const isEven = isShort(a, b, lengthM);
  const eastDeg = turnDeg(a[0], b[0]);
  const northDeg = b[1] - a[1];
  const rightDeg = turnDeg(leavesDeg, arrivesDeg);
  let line: ReturnType<typeof wgs84.DirectLine> | null = null;
  return {
    lengthM,
    leavesDeg,
    arrivesDeg,
    at(alongM) {
      if (isEven) {
        const share = alongM / lengthM;
        return {
          position: [wrapLngDeg(a[0] + share * eastDeg), a[1] + share * northDeg],
          bearingDeg: wrapBearingDeg(leavesDeg + share * rightDeg),
        };
      }
      line ??= wgs84.DirectLine(a[1], a[0], way.azi1!, way.s12!);
      const place = line.Position(alongM, Geodesic.LATITUDE | Geodesic.LONGITUDE | Geodesic.AZIMUTH);
      return {
        position: [wrapLngDeg(place.lon2!), place.lat2!],
        bearingDeg: wrapBearingDeg(place.azi2!),
      };
    },
  };
}
