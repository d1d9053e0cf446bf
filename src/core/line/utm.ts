import proj4, { type Converter } from 'proj4';
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

const bands = 'CDEFGHJKLMNPQRSTUVWX';

/** Letter of a latitude from -80 to 84; null outside, where the grid is not used. */
export function bandOf(latDeg: number): string | null {
  if (!(latDeg >= -80 && latDeg <= 84)) return null;
  return bands[Math.min(Math.floor((latDeg + 80) / 8), bands.length - 1)]!;
}

/** Zone of a position, with the exceptions of southern Norway (32V) and Svalbard (31X to 37X). */
export function zoneOf([lngDeg, latDeg]: LngLat): number {
  const lng = wrapLngDeg(lngDeg);
  if (latDeg >= 56 && latDeg < 64 && lng >= 3 && lng < 12) return 32;
  if (latDeg >= 72 && lng >= 0 && lng < 42) return lng < 9 ? 31 : lng < 21 ? 33 : lng < 33 ? 35 : 37;
  return Math.floor((lng + 180) / 6) + 1;
}

/** null beyond 80 south and 84 north, where the grid is not used. */
export function toUtm(position: LngLat): UtmPlace | null {
  const [lngDeg, latDeg] = position;
  const band = bandOf(latDeg);
  if (band === null) return null;
  const zone = zoneOf(position);
  const [eastingM, northingM] = gridOf(zone, isNorthBand(band)).forward([wrapLngDeg(lngDeg), latDeg]);
  return {
    zone,
    band,
    eastingM,
    // Beside the equator rounding must not carry a place into the other half.
    northingM: isNorthBand(band) ? Math.max(northingM, 0) : Math.min(northingM, 9_999_999.999_999_998),
  };
}

/** The position of a grid place; the hemisphere is said, not the band. */
export function fromUtm(place: {
  readonly zone: number;
  readonly isNorth: boolean;
  readonly eastingM: number;
  readonly northingM: number;
}): LngLat {
  const [lngDeg, latDeg] = gridOf(place.zone, place.isNorth).inverse([place.eastingM, place.northingM]);
  return [wrapLngDeg(lngDeg), latDeg];
}

export const isNorthBand = (band: string): boolean => band >= 'N';

const grids = new Map<string, Converter>();

/** proj4's transverse Mercator, the series of Poder and Engsager: nanometres within a zone. */
function gridOf(zone: number, isNorth: boolean): Converter {
  const text = `+proj=utm +zone=${zone}${isNorth ? '' : ' +south'} +datum=WGS84 +units=m`;
  const known = grids.get(text) ?? proj4(text);
  grids.set(text, known);
  return known;
}
