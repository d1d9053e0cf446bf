import type { Station } from '../domain/station';
import { between, slopeLength } from '../pace/on-line';
import { walkedElevationM } from '../pace/walked';

/** Metres up and down between two places on the line; null where an elevation on the way is unknown. */
export interface Climbs {
  between(fromM: number, toM: number): { readonly ascentM: number | null; readonly descentM: number | null };
}

/** Counts climbing without the small ups and downs that walking times leave out too. */
export function climbsOf(stations: readonly Station[], wiggleM: number): Climbs {
  const elevationM = walkedElevationM(stations, wiggleM);
  const { alongM } = slopeLength(stations);
  const sums = { up: new Float64Array(stations.length), down: new Float64Array(stations.length) };
  const unknownM = new Float64Array(stations.length);
  for (let i = 1; i < stations.length; i++) {
    const riseM = elevationM[i]! - elevationM[i - 1]!;
    const lengthM = alongM[i]! - alongM[i - 1]!;
    sums.up[i] = sums.up[i - 1]! + (riseM > 0 ? riseM : 0);
    sums.down[i] = sums.down[i - 1]! + (riseM < 0 ? -riseM : 0);
    unknownM[i] = unknownM[i - 1]! + (Number.isNaN(riseM) ? lengthM : 0);
  }
  const over = (sum: Float64Array, fromM: number, toM: number) =>
    between(alongM, sum, toM) - between(alongM, sum, fromM);
  return {
    between(fromM, toM) {
      if (over(unknownM, fromM, toM) > 0) return { ascentM: null, descentM: null };
      return { ascentM: over(sums.up, fromM, toM), descentM: over(sums.down, fromM, toM) };
    },
  };
}
