import proj4 from 'proj4';
import type { LngLat, MapXY } from '../../../domain/coordinates';
import type { MapFrame } from '../../../domain/raster';

export interface CrsDefinition {
  /** As shown: `EPSG:2056`, `user-defined transverse Mercator`. */
  readonly name: string;
  readonly epsg: number | null;
  readonly isGeographic: boolean;
  /** proj4 text, datum shift included; axes always east, north. */
  readonly proj4: string;
  /** Metres per unit of x and y; null for degrees. */
  readonly unitM: number | null;
  /** Degrees: west, south, east, north; null when not known. West above east crosses 180 degrees. */
  readonly area: readonly [number, number, number, number] | null;
}

/**
 * The way between a coordinate system and WGS 84. Positions that cannot be projected come out as NaN.
 * @param centreLngDeg longitudes of a geographic system come out within 180 degrees of it, as the raster counts them.
 */
export function makeFrame(crs: CrsDefinition, centreLngDeg = 0): MapFrame {
  const { name, epsg, isGeographic } = crs;
  const unwrap = (lngDeg: number) => lngDeg + 360 * Math.round((centreLngDeg - lngDeg) / 360);
  const wrap = (lngDeg: number) =>
    Math.abs(lngDeg) <= 180 ? lngDeg : lngDeg - 360 * Math.round(lngDeg / 360);
  if (crs.proj4 === longLatWgs84)
    return {
      name,
      epsg,
      isGeographic,
      toLngLat: ([x, y]) => [wrap(x), y],
      fromLngLat: ([lngDeg, latDeg]) => [unwrap(lngDeg), latDeg],
    };
  const converter = proj4(crs.proj4);
  const safely = (
    convert: (xy: [number, number]) => [number, number],
    x: number,
    y: number,
  ): [number, number] => {
    try {
      return convert([x, y]);
    } catch {
      return [NaN, NaN]; // outside what the projection can show
    }
  };
  return {
    name,
    epsg,
    isGeographic,
    toLngLat: ([x, y]: MapXY): LngLat => {
      const [lngDeg, latDeg] = safely(converter.inverse, x, y);
      return [wrap(lngDeg), latDeg];
    },
    fromLngLat: ([lngDeg, latDeg]: LngLat): MapXY => {
      const [x, y] = safely(converter.forward, lngDeg, latDeg);
      return [isGeographic ? unwrap(x) : x, y];
    },
  };
}

export const longLatWgs84 = '+proj=longlat +datum=WGS84 +no_defs';
