import type { Cancel } from '../domain/cancel';
import type { LngLat } from '../domain/coordinates';
import type { Raster } from '../domain/raster';
import { readPoint, type GroundPoint } from './read-point';
import { Terrain } from './terrain';

/** Places worked on together. */
const roundPlaces = 256;

/** The ground at each of the positions, in the same order. */
export async function groundAt(
  positions: readonly LngLat[],
  rasters: readonly Raster[],
  options: { readonly onProgress?: (share: number) => void; readonly cancel?: Cancel } = {},
): Promise<GroundPoint[]> {
  const terrain = new Terrain(rasters);
  const points: GroundPoint[] = [];
  for (let from = 0; from < positions.length; from += roundPlaces) {
    options.cancel?.throwIfAborted();
    const round = positions.slice(from, from + roundPlaces);
    points.push(...(await terrain.read(round, (position) => readPoint(terrain, position), options.cancel)));
    options.onProgress?.(points.length / positions.length);
  }
  return points;
}
