import { geoKey, type GeoKeys } from '../tiff/geo-keys';
import { projectionOfKeys } from './projection-of-keys';
import { methods, projectionText } from './projection-text';
import { systemOfEpsg, type CrsSystem } from './system';
import type { DatumShift } from './table';

const everywhere = (parameters: readonly number[]): DatumShift => ({
  area: [-180, -90, 180, 90],
  accuracyM: -1,
  isOffshore: false,
  parameters,
});

/** Ellipsoid and datum of a user-defined system. */
export interface Earth {
  /** proj4 text: `+a=... +rf=...` and the prime meridian. */
  readonly text: string;
  readonly shifts: readonly DatumShift[];
}

/** What was wanted and not found, for the refusal. */
export interface Incomplete {
  readonly incomplete: string;
}

/** The projected system that the keys spell out. */
export async function projectedOfKeys(keys: GeoKeys): Promise<CrsSystem | Incomplete> {
  const projection = projectionOfKeys(keys);
  if ('unknown' in projection) return { incomplete: projection.unknown };
  const text = projectionText(projection.method, projection.parts);
  if ('missing' in text) return { incomplete: `no ${text.missing.join(', no ')}` };
  const earth = await earthOfKeys(keys);
  if ('incomplete' in earth) return earth;
  const unit = projection.unitM === 1 ? '' : ` +to_meter=${projection.unitM}`;
  return {
    name: `user-defined ${methods[projection.method].name}`,
    epsg: null,
    isGeographic: false,
    text: `${text.text} ${earth.text}${unit}`,
    unitM: projection.unitM,
    area: null,
    shifts: earth.shifts,
  };
}

/** The geographic system that the keys spell out. */
export async function geographicOfKeys(keys: GeoKeys): Promise<CrsSystem | Incomplete> {
  const earth = await earthOfKeys(keys);
  if ('incomplete' in earth) return earth;
  const angle = keys.number(geoKey.angularUnits);
  if (Number.isFinite(angle) && angle !== 9102) return { incomplete: `angles not in degrees (${angle})` };
  return {
    name: 'user-defined longitude and latitude',
    epsg: null,
    isGeographic: true,
    text: `+proj=longlat ${earth.text}`,
    unitM: null,
    area: null,
    shifts: earth.shifts,
  };
}

/** By the geographic system's code, the datum's code, or the ellipsoid with its shift: exact, or incomplete. */
async function earthOfKeys(keys: GeoKeys): Promise<Earth | Incomplete> {
  const code = keys.number(geoKey.geodeticCrs);
  if (code > 0 && code < 32767) return earthOfCode(code);
  const toWgs84 = keys.numbers(geoKey.toWgs84);
  const text = ellipsoidText(keys);
  const datum = keys.number(geoKey.geodeticDatum);
  // EPSG numbered the classic datums 2000 above their geographic systems: 6326 is WGS 84's, 4326 its system.
  if (toWgs84.length === 0 && datum >= 6001 && datum < 7000) return earthOfCode(datum - 2000);
  if (text === null) return { incomplete: 'no known datum and no ellipsoid' };
  if (toWgs84.length === 3 || toWgs84.length === 7) return { text, shifts: [everywhere(toWgs84)] };
  return isWgsLike(text) ? { text, shifts: [everywhere([])] } : { incomplete: 'no datum shift' };
}

export async function earthOfCode(code: number): Promise<Earth | Incomplete> {
  const system = await systemOfEpsg(code);
  if (system === null || !system.isGeographic)
    return { incomplete: `geographic system EPSG:${code} is not known here` };
  return { text: system.text.replace(/\+proj=longlat\s*/, ''), shifts: system.shifts };
}

/** WGS 84 and GRS 80 bodies: their datums agree within a metre or two, less than any cell here matters. */
export const isWgsLike = (text: string) => /\+a=6378137(\.0*)? \+rf=298\.2572\d*/.test(text);

const ellipsoids: Readonly<Record<number, string>> = {
  7030: '+a=6378137 +rf=298.257223563',
  7019: '+a=6378137 +rf=298.257222101',
  7004: '+a=6377397.155 +rf=299.1528128',
  7022: '+a=6378388 +rf=297',
  7024: '+a=6378245 +rf=298.3',
  7001: '+a=6377563.396 +rf=299.3249646',
  7008: '+a=6378206.4 +b=6356583.8',
  7043: '+a=6378135 +rf=298.26',
};

function ellipsoidText(keys: GeoKeys): string | null {
  const a = keys.number(geoKey.semiMajorAxis);
  const rf = keys.number(geoKey.inverseFlattening);
  const b = keys.number(geoKey.semiMinorAxis);
  const meridian = keys.number(geoKey.primeMeridianLongitude);
  const pm = Number.isFinite(meridian) && meridian !== 0 ? ` +pm=${meridian}` : '';
  if (a > 6.3e6 && a < 6.4e6 && rf > 100) return `+a=${a} +rf=${rf}${pm}`;
  if (a > 6.3e6 && a < 6.4e6 && b > 6.3e6 && b <= a) return `+a=${a} +b=${b}${pm}`;
  const known = ellipsoids[keys.number(geoKey.ellipsoid)];
  return known === undefined ? null : known + pm;
}
