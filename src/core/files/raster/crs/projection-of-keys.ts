import { metresOfUnitCode } from '../elevation-unit';
import { geoKey, type GeoKeys } from '../tiff/geo-keys';
import type { MethodKey, ProjectionParts } from './projection-text';

/** GeoTIFF coordinate transformation codes (GeoTIFF 1.0, 6.3.3.3; 9815 as GDAL writes it). */
const methodCodes: Readonly<Record<number, MethodKey>> = {
  1: 'tmerc',
  3: 'obliqueA',
  5: 'swiss',
  8: 'lcc2',
  9: 'lcc1',
  10: 'laea',
  11: 'aea',
  12: 'aeqd',
  13: 'eqdc',
  14: 'stere',
  15: 'polar',
  16: 'sterea',
  18: 'cass',
  22: 'poly',
  24: 'sinu',
  26: 'nzmg',
  28: 'cea',
  9815: 'obliqueB',
};

/** Degrees per unit of the EPSG angle codes that occur in files. */
const degreesPer: Readonly<Record<number, number>> = {
  9101: 180 / Math.PI,
  9102: 1,
  9103: 1 / 60,
  9104: 1 / 3600,
  9105: 0.9,
  9106: 0.9,
};

export interface KeyProjection {
  readonly method: MethodKey;
  readonly parts: ProjectionParts;
  /** Metres per unit of x and y. */
  readonly unitM: number;
}

/** The user-defined projection the keys describe; or what is unknown about it. */
export function projectionOfKeys(keys: GeoKeys): KeyProjection | { readonly unknown: string } {
  const zone = utmZone(keys);
  if (zone !== null) return utmOf(zone);
  const code = keys.number(geoKey.method);
  const method = code === 7 ? mercator(keys) : methodCodes[code];
  if (method === undefined)
    return { unknown: Number.isNaN(code) ? 'no projection method' : `projection method ${code}` };
  const unitM = linearUnitM(keys);
  if (unitM === null) return { unknown: `unit of length ${keys.number(geoKey.projLinearUnits)}` };
  const degrees = degreesPerUnit(keys);
  if (degrees === null) return { unknown: `unit of angle ${keys.number(geoKey.angularUnits)}` };
  const firstOf = (...candidates: number[]) =>
    candidates.map((key) => keys.number(key)).find(Number.isFinite) ?? NaN;
  const parts: ProjectionParts = {
    latDeg: firstOf(geoKey.naturalOriginLat, geoKey.falseOriginLat, geoKey.centerLat) * degrees,
    lngDeg:
      firstOf(
        geoKey.naturalOriginLong,
        geoKey.falseOriginLong,
        geoKey.centerLong,
        geoKey.straightVertPoleLong,
      ) * degrees,
    parallel1Deg: keys.number(geoKey.stdParallel1) * degrees,
    parallel2Deg: keys.number(geoKey.stdParallel2) * degrees,
    scale: firstOf(geoKey.scaleAtNaturalOrigin, geoKey.scaleAtCenter),
    azimuthDeg: keys.number(geoKey.azimuthAngle) * degrees,
    rectifiedDeg: keys.number(geoKey.rectifiedGridAngle) * degrees,
    falseEastM: firstOf(geoKey.falseEasting, geoKey.falseOriginEasting, geoKey.centerEasting) * unitM,
    falseNorthM: firstOf(geoKey.falseNorthing, geoKey.falseOriginNorthing, geoKey.centerNorthing) * unitM,
  };
  // Where the pole's own longitude is given, it is the one that counts.
  const poleLng = keys.number(geoKey.straightVertPoleLong) * degrees;
  return {
    method,
    parts: method === 'polar' && Number.isFinite(poleLng) ? { ...parts, lngDeg: poleLng } : parts,
    unitM,
  };
}

export interface UtmZone {
  readonly zone: number;
  readonly isSouth: boolean;
}

/** Projection codes 16001 to 16060 and 16101 to 16160 are UTM zones, north and south; null: another projection. */
export function utmZone(keys: GeoKeys): UtmZone | null {
  const projection = keys.number(geoKey.projection);
  const isNorth = projection > 16000 && projection <= 16060;
  const isSouth = projection > 16100 && projection <= 16160;
  return isNorth || isSouth ? { zone: projection % 100, isSouth } : null;
}

/** @source DMA TM 8358.2 (1989), 2-2: central meridian, scale, false easting and northing, always in metres. */
const utmOf = ({ zone, isSouth }: UtmZone): KeyProjection => ({
  method: 'tmerc',
  unitM: 1,
  parts: {
    latDeg: 0,
    lngDeg: zone * 6 - 183,
    parallel1Deg: NaN,
    parallel2Deg: NaN,
    scale: 0.9996,
    azimuthDeg: NaN,
    rectifiedDeg: NaN,
    falseEastM: 500_000,
    falseNorthM: isSouth ? 10_000_000 : 0,
  },
});

const mercator = (keys: GeoKeys): MethodKey =>
  Number.isFinite(keys.number(geoKey.stdParallel1)) ? 'merc2' : 'merc1';

export function linearUnitM(keys: GeoKeys): number | null {
  const code = keys.number(geoKey.projLinearUnits);
  if (Number.isNaN(code)) return 1;
  if (code !== 32767) return metresOfUnitCode(code);
  const size = keys.number(geoKey.projLinearUnitSize);
  return size > 0 ? size : null;
}

export function degreesPerUnit(keys: GeoKeys): number | null {
  const code = keys.number(geoKey.angularUnits);
  if (Number.isNaN(code)) return 1;
  if (code !== 32767) return degreesPer[code] ?? null;
  const radians = keys.number(geoKey.angularUnitSize);
  return radians > 0 ? (radians * 180) / Math.PI : null;
}
