import type { LngLat } from '../../core/domain/coordinates';
import { fewerCorners } from '../../core/line/fewer-corners';
import { unwrapped } from './scene';

/** 5 cm on the ground: a quarter of a pixel at the zoom to which the map keeps lines apart. */
const toleranceDeg = 4.5e-7;

/**
 * Coordinates of a line for drawing. Stations on a straight piece change nothing of what is seen and cost the page time: a
 * line of tens of thousands is handed to the map's worker one by one.
 */
export function drawnLine(positions: readonly LngLat[], nearDeg?: number): number[][] {
  return fewerCorners(unwrapped(positions, nearDeg), toleranceDeg);
}
