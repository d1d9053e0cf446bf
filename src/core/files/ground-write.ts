import type { Station } from '../domain/station';
import { csv, number } from './csv';
import { layOutJson } from './json-layout';
import { decimals, rounded } from './number-text';

/** The ground at one place. null or NaN: no data. */
export type GroundRow = Pick<Station, 'position' | 'elevationM' | 'slopeDeg' | 'aspectDeg' | 'curvaturePerM'>;

/** One row per place, in the order asked; empty cells where there is no data. */
export function groundCsv(rows: readonly GroundRow[]): string {
  const header = ['lon', 'lat', 'elevation_m', 'slope_deg', 'aspect_deg', 'curvature_per_m'];
  return csv(header, rows, ({ position, elevationM, slopeDeg, aspectDeg, curvaturePerM }) => [
    number(position[0], decimals.lngLat),
    number(position[1], decimals.lngLat),
    number(elevationM, decimals.metres),
    number(slopeDeg, decimals.angle),
    number(aspectDeg, decimals.angle),
    number(curvaturePerM, decimals.curvature),
  ]);
}

/** The same as a JSON list; null where there is no data. */
export function groundJson(rows: readonly GroundRow[]): string {
  return layOutJson(
    rows.map(({ position, elevationM, slopeDeg, aspectDeg, curvaturePerM }) => ({
      lon: rounded(position[0], decimals.lngLat),
      lat: rounded(position[1], decimals.lngLat),
      elevationM: rounded(elevationM, decimals.metres),
      slopeDeg: rounded(slopeDeg, decimals.angle),
      aspectDeg: rounded(aspectDeg, decimals.angle),
      curvaturePerM: rounded(curvaturePerM, decimals.curvature),
    })),
  );
}
