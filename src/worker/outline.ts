import type { LngLat } from '../core/domain/coordinates';
import type { Raster } from '../core/domain/raster';
import { positionOfCell } from '../core/ground/ground-scale';

const partsPerSide = 16;

/** The raster's edge on the ground, closed. Its sides curve in longitude and latitude, hence more than four corners. */
export function outlineOf(raster: Raster): LngLat[] {
  const { widthPx, heightPx } = raster;
  const corners = [
    [0, 0],
    [0, heightPx],
    [widthPx, heightPx],
    [widthPx, 0],
  ] as const;
  const cells = corners.flatMap(([col, row], i) => {
    const [nextCol, nextRow] = corners[(i + 1) % 4] ?? [0, 0];
    return Array.from({ length: partsPerSide }, (_, part) => {
      const fraction = part / partsPerSide;
      return [col + (nextCol - col) * fraction, row + (nextRow - row) * fraction] as const;
    });
  });
  const places = cells.map(([col, row]) => positionOfCell(raster, col, row));
  return [...places, places[0] ?? [0, 0]];
}
