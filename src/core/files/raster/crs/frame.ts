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

type Convert = (xy: readonly [number, number]) => readonly [number, number];

const wgs84 = new proj4.Proj('WGS84');

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
    toLngLat: (xy: MapXY): LngLat => {
      const lngLat = converter.inverse(isGeographic ? [wrap(xy[0]), xy[1]] : xy);
      return [wrap(lngLat[0]), lngLat[1]];
    },
    fromLngLat: (lngLat: LngLat): MapXY => {
      const xy = converter.forward(lngLat);
      return isGeographic ? [unwrap(xy[0]), xy[1]] : xy;
    },
  };
}

function converterOf(crs: CrsDefinition): { forward: Convert; inverse: Convert } {
  const isAsWgs84 = crs.isGeographic && crs.shift.length === 0 && !crs.text.includes('+pm');
  if (isAsWgs84) return { forward: (xy) => xy, inverse: (xy) => xy };
  const shift = crs.shift.length === 0 ? '' : ` +towgs84=${crs.shift.join(',')}`;
  const own = new proj4.Proj(`${crs.text}${shift} +no_defs`);
  return { forward: converting(wgs84, own), inverse: converting(own, wgs84) };
}

type Projection = InstanceType<typeof proj4.Proj>;

/** Asked with points that have a height: lists of two numbers take proj4 a fifth longer. */
function converting(from: Projection, to: Projection): Convert {
  const nowhere = [NaN, NaN] as const;
  return (xy) => {
    try {
      const point = proj4.transform(from, to, { x: xy[0], y: xy[1], z: 0 });
      return point === undefined ? nowhere : [point.x, point.y];
    } catch {
      return nowhere; // outside what the projection can show
    }
  };
}
