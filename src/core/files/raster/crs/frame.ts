import proj4 from 'proj4';
import type { LngLat, MapXY } from '../../../domain/coordinates';
import type { MapFrame } from '../../../domain/raster';

/** A coordinate system with its datum shift settled. */
export interface CrsDefinition {
  /** As shown: `EPSG:2056`, `user-defined transverse Mercator`. */
  readonly name: string;
  readonly epsg: number | null;
  readonly isGeographic: boolean;
  /** proj4 text without datum; axes always east, north. */
  readonly text: string;
  /** As proj4's `+towgs84`; empty where positions stay as they are. */
  readonly shift: readonly number[];
  /** Metres per unit of x and y; null for degrees. */
  readonly unitM: number | null;
}

type Convert = (xy: [number, number]) => [number, number];

/**
 * The way between a coordinate system and WGS 84. Positions that cannot be projected come out as NaN.
 * @param centreLngDeg longitudes of a geographic system come out within 180 degrees of it, as the raster counts them.
 */
export function makeFrame(crs: CrsDefinition, centreLngDeg = 0): MapFrame {
  const { name, epsg, isGeographic } = crs;
  const converter = converterOf(crs);
  const unwrap = (lngDeg: number) => lngDeg + 360 * Math.round((centreLngDeg - lngDeg) / 360);
  const wrap = (lngDeg: number) =>
    Math.abs(lngDeg) <= 180 ? lngDeg : lngDeg - 360 * Math.round(lngDeg / 360);
  return {
    name,
    epsg,
    isGeographic,
    toLngLat: ([x, y]: MapXY): LngLat => {
      const [lngDeg, latDeg] = converter.inverse([isGeographic ? wrap(x) : x, y]);
      return [wrap(lngDeg), latDeg];
    },
    fromLngLat: ([lngDeg, latDeg]: LngLat): MapXY => {
      const [x, y] = converter.forward([lngDeg, latDeg]);
      return [isGeographic ? unwrap(x) : x, y];
    },
  };
}

function converterOf(crs: CrsDefinition): { forward: Convert; inverse: Convert } {
  const isAsWgs84 = crs.isGeographic && crs.shift.length === 0 && !crs.text.includes('+pm');
  if (isAsWgs84) return { forward: (xy) => xy, inverse: (xy) => xy };
  const shift = crs.shift.length === 0 ? '' : ` +towgs84=${crs.shift.join(',')}`;
  const converter = proj4(`${crs.text}${shift} +no_defs`);
  const safely = (convert: Convert): Convert => {
    return (xy) => {
      try {
        return convert(xy);
      } catch {
        return [NaN, NaN]; // outside what the projection can show
      }
    };
  };
  return { forward: safely(converter.forward), inverse: safely(converter.inverse) };
}
