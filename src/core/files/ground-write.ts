import type { LngLat } from '../domain/coordinates';
import type { Station } from '../domain/station';
import { csv, number } from './csv';
import { layOutJson } from './json-layout';
import { decimals, rounded } from './number-text';

/** The ground at one place. null or NaN: no data. */
export type GroundRow = Pick<Station, 'elevationM' | 'slopeDeg' | 'aspectDeg' | 'curvaturePerM'>;

/** One record per place, in the order asked; empty cells where there is no data. */
export function groundCsv(positions: readonly LngLat[], ground: readonly GroundRow[]): string {
  const header = ['lon', 'lat', 'elevation_m', 'slope_deg', 'aspect_deg', 'curvature_per_m'];
  return csv(header, ground, ({ elevationM, slopeDeg, aspectDeg, curvaturePerM }, i) => {
    const position = positions[i]!;
    return [
      number(position[0], decimals.lngLat),
      number(position[1], decimals.lngLat),
      number(elevationM, decimals.metres),
      number(slopeDeg, decimals.angle),
      number(aspectDeg, decimals.angle),
      number(curvaturePerM, decimals.curvature),
    ];
  });
}

/** The same as a JSON list; null where there is no data. */
export function groundJson(positions: readonly LngLat[], ground: readonly GroundRow[]): string {
  return layOutJson(
    ground.map(({ elevationM, slopeDeg, aspectDeg, curvaturePerM }, i) => ({
      lon: rounded(positions[i]![0], decimals.lngLat),
      lat: rounded(positions[i]![1], decimals.lngLat),
      elevationM: rounded(elevationM, decimals.metres),
      slopeDeg: rounded(slopeDeg, decimals.angle),
      aspectDeg: rounded(aspectDeg, decimals.angle),
      curvaturePerM: rounded(curvaturePerM, decimals.curvature),
    })),
  );
}
