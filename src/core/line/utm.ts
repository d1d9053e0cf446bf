import type { LngLat } from '../domain/coordinates';
import { wrapLngDeg } from './geodesic';

/** A place on the Universal Transverse Mercator grid, WGS 84. Metres. */
export interface UtmPlace {
  /** 1 to 60. */
  readonly zone: number;
  /** C to X without I and O, south to north. */
  readonly band: string;
  readonly eastingM: number;
  readonly northingM: number;
}

const semiMajorM = 6_378_137;
const flattening = 1 / 298.257223563;
const n = flattening / (2 - flattening);
const e = Math.sqrt(flattening * (2 - flattening));
const centralScale = 0.9996;
const falseEastingM = 500_000;
const falseNorthingM = 10_000_000;
const rectifyingRadiusM = (semiMajorM / (1 + n)) * (1 + n ** 2 / 4 + n ** 4 / 64 + n ** 6 / 256);

/** Coefficients of n, n^2 ... n^6. */
const series = (rows: readonly (readonly number[])[]): number[] =>
  rows.map((row) => row.reduce((sum, coefficient, i) => sum + coefficient * n ** (i + 1), 0));

/** @source C.F.F. Karney, "Transverse Mercator with an accuracy of a few nanometers", J. Geodesy 85 (2011) 475-485, eq. 35. */
const alpha = series([
  [1 / 2, -2 / 3, 5 / 16, 41 / 180, -127 / 288, 7891 / 37800],
  [0, 13 / 48, -3 / 5, 557 / 1440, 281 / 630, -1983433 / 1935360],
  [0, 0, 61 / 240, -103 / 140, 15061 / 26880, 167603 / 181440],
  [0, 0, 0, 49561 / 161280, -179 / 168, 6601661 / 7257600],
  [0, 0, 0, 0, 34729 / 80640, -3418889 / 1995840],
  [0, 0, 0, 0, 0, 212378941 / 319334400],
]);
/** Ibid., eq. 36. */
const beta = series([
  [1 / 2, -2 / 3, 37 / 96, -1 / 360, -81 / 512, 96199 / 604800],
  [0, 1 / 48, 1 / 15, -437 / 1440, 46 / 105, -1118711 / 3870720],
  [0, 0, 17 / 480, -37 / 840, -209 / 4480, 5569 / 90720],
  [0, 0, 0, 4397 / 161280, -11 / 504, -830251 / 7257600],
  [0, 0, 0, 0, 4583 / 161280, -108847 / 3991680],
  [0, 0, 0, 0, 0, 20648693 / 638668800],
]);

const bands = 'CDEFGHJKLMNPQRSTUVWX';
const radians = Math.PI / 180;

/** Letter of a latitude from -80 to 84; null outside, where the grid is not used. */
export function bandOf(latDeg: number): string | null {
  if (!(latDeg >= -80 && latDeg <= 84)) return null;
  return bands[Math.min(Math.floor((latDeg + 80) / 8), bands.length - 1)]!;
}

/** Zone of a position, with the exceptions of southern Norway (32V) and Svalbard (31X to 37X). */
export function zoneOf([lngDeg, latDeg]: LngLat): number {
  const lng = wrapLngDeg(lngDeg);
  if (latDeg >= 56 && latDeg < 64 && lng >= 3 && lng < 12) return 32;
  if (latDeg >= 72 && latDeg <= 84 && lng >= 0 && lng < 42)
    return lng < 9 ? 31 : lng < 21 ? 33 : lng < 33 ? 35 : 37;
  return Math.floor((lng + 180) / 6) + 1;
}

/** null beyond 80 south and 84 north, where the grid is not used. */
export function toUtm(position: LngLat): UtmPlace | null {
  const [lngDeg, latDeg] = position;
  const band = bandOf(latDeg);
  if (band === null) return null;
  const zone = zoneOf(position);
  const lng = wrapLngDeg(lngDeg - centralMeridianDeg(zone)) * radians;
  const conformal = conformalTan(Math.tan(latDeg * radians));
  const xi = Math.atan2(conformal, Math.cos(lng));
  const eta = Math.asinh(Math.sin(lng) / Math.hypot(conformal, Math.cos(lng)));
  const scaleM = centralScale * rectifyingRadiusM;
  const northingM = scaleM * (xi + sum(alpha, (j) => Math.sin(2 * j * xi) * Math.cosh(2 * j * eta)));
  const eastingM = scaleM * (eta + sum(alpha, (j) => Math.cos(2 * j * xi) * Math.sinh(2 * j * eta)));
  return {
    zone,
    band,
    eastingM: falseEastingM + eastingM,
    // Beside the equator rounding must not carry a place into the other half.
    northingM: isNorthBand(band)
      ? Math.max(northingM, 0)
      : Math.min(falseNorthingM + northingM, 9_999_999.999_999_998),
  };
}

/** The position of a grid place; the hemisphere is said, not the band. */
export function fromUtm(place: {
  readonly zone: number;
  readonly isNorth: boolean;
  readonly eastingM: number;
  readonly northingM: number;
}): LngLat {
  const scaleM = centralScale * rectifyingRadiusM;
  const xi = (place.isNorth ? place.northingM : place.northingM - falseNorthingM) / scaleM;
  const eta = (place.eastingM - falseEastingM) / scaleM;
  const xiSphere = xi - sum(beta, (j) => Math.sin(2 * j * xi) * Math.cosh(2 * j * eta));
  const etaSphere = eta - sum(beta, (j) => Math.cos(2 * j * xi) * Math.sinh(2 * j * eta));
  const conformal = Math.sin(xiSphere) / Math.hypot(Math.sinh(etaSphere), Math.cos(xiSphere));
  const lng = Math.atan2(Math.sinh(etaSphere), Math.cos(xiSphere));
  return [
    wrapLngDeg(centralMeridianDeg(place.zone) + lng / radians),
    Math.atan(geodeticTan(conformal)) / radians,
  ];
}

export const isNorthBand = (band: string): boolean => band >= 'N';

const centralMeridianDeg = (zone: number): number => zone * 6 - 183;

const sum = (coefficients: readonly number[], term: (j: number) => number): number =>
  coefficients.reduce((total, coefficient, i) => total + coefficient * term(i + 1), 0);

/** Tangent of the conformal latitude from that of the geodetic one (ibid., eq. 7 to 9). */
function conformalTan(tan: number): number {
  const sigma = Math.sinh(e * Math.atanh((e * tan) / Math.hypot(1, tan)));
  return tan * Math.hypot(1, sigma) - sigma * Math.hypot(1, tan);
}

/** The way back by Newton's method (ibid., eq. 19 to 21). */
function geodeticTan(conformal: number): number {
  let tan = conformal / (1 - e * e);
  for (let round = 0; round < 8; round++) {
    const found = conformalTan(tan);
    const step =
      ((conformal - found) / Math.hypot(1, found)) *
      ((1 + (1 - e * e) * tan * tan) / ((1 - e * e) * Math.hypot(1, tan)));
    tan += step;
    if (Math.abs(step) < 1e-12 * Math.max(1, Math.abs(tan))) break;
  }
  return tan;
}
