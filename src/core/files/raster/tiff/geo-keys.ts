import { refuse } from '../refusal';
import type { FieldValues } from './field-values';
import { tag } from './tags';

/** GeoTIFF keys by number (OGC GeoTIFF 1.1, OGC 19-008r4, annex). */
export const geoKey = {
  modelType: 1024,
  rasterType: 1025,
  citation: 1026,
  geodeticCrs: 2048,
  geodeticCitation: 2049,
  geodeticDatum: 2050,
  primeMeridian: 2051,
  linearUnits: 2052,
  linearUnitSize: 2053,
  angularUnits: 2054,
  angularUnitSize: 2055,
  ellipsoid: 2056,
  semiMajorAxis: 2057,
  semiMinorAxis: 2058,
  inverseFlattening: 2059,
  azimuthUnits: 2060,
  primeMeridianLongitude: 2061,
  toWgs84: 2062,
  projectedCrs: 3072,
  projectedCitation: 3073,
  projection: 3074,
  method: 3075,
  projLinearUnits: 3076,
  projLinearUnitSize: 3077,
  stdParallel1: 3078,
  stdParallel2: 3079,
  naturalOriginLong: 3080,
  naturalOriginLat: 3081,
  falseEasting: 3082,
  falseNorthing: 3083,
  falseOriginLong: 3084,
  falseOriginLat: 3085,
  falseOriginEasting: 3086,
  falseOriginNorthing: 3087,
  centerLong: 3088,
  centerLat: 3089,
  centerEasting: 3090,
  centerNorthing: 3091,
  scaleAtNaturalOrigin: 3092,
  scaleAtCenter: 3093,
  azimuthAngle: 3094,
  straightVertPoleLong: 3095,
  rectifiedGridAngle: 3096,
  verticalCrs: 4096,
  verticalCitation: 4097,
  verticalDatum: 4098,
  verticalUnits: 4099,
} as const;

export interface GeoKeys {
  /** NaN where the key is absent or no number. */
  number(key: number): number;
  numbers(key: number): readonly number[];
  text(key: number): string | null;
  readonly isEmpty: boolean;
}

/** Reads the GeoKey directory: four shorts per key, long values in the double and ASCII tags. */
export async function readGeoKeys(values: FieldValues): Promise<GeoKeys> {
  const directory = await values.numbers(tag.geoKeyDirectory);
  const doubles = await values.numbers(tag.geoDoubleParams);
  const ascii = (await values.text(tag.geoAsciiParams)) ?? '';
  const byKey = new Map<number, readonly number[] | string>();
  const count = directory[3] ?? 0;
  if (directory.length > 0 && directory.length < 4 + 4 * count)
    refuse('TIF-004', values.reader.name, 'tag 34735', `claims ${count} keys in ${directory.length} numbers`);
  for (let i = 0; i < count; i++) {
    const [key = 0, location = 0, length = 0, offset = 0] = directory.slice(4 + 4 * i, 8 + 4 * i);
    if (location === 0) byKey.set(key, [offset]);
    else if (location === tag.geoDoubleParams) byKey.set(key, doubles.slice(offset, offset + length));
    else if (location === tag.geoKeyDirectory) byKey.set(key, directory.slice(offset, offset + length));
    else if (location === tag.geoAsciiParams)
      byKey.set(key, ascii.slice(offset, offset + length).replace(/[|\0]+$/, ''));
  }
  const numbers = (key: number) => {
    const value = byKey.get(key);
    return value === undefined || typeof value === 'string' ? [] : value;
  };
  return {
    number: (key) => numbers(key)[0] ?? NaN,
    numbers,
    text: (key) => {
      const value = byKey.get(key);
      return typeof value === 'string' ? value : null;
    },
    isEmpty: byKey.size === 0,
  };
}
