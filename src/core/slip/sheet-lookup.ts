import type { SheetGrid } from './slip-sheet';

type Axes = Pick<SheetGrid, 'slopesDeg' | 'betasDeg'>;

/**
 * Mean of a sheet over a slope known with a normal error. The sheet is for slopes known exactly, and the slope of a slip is
 * drawn apart from all else, so the mean over it is what a simulation with that error would give.
 */
export function spreadMean(
  axes: Axes,
  values: Float32Array,
  at: { readonly slopeDeg: number; readonly sigmaDeg: number; readonly betaDeg: number },
): number {
  let sum = 0;
  for (let i = 0; i < normalPoints.length; i++) {
    const slopeDeg = at.slopeDeg + at.sigmaDeg * normalPoints[i]!;
    sum += normalWeights[i]! * between(axes, values, slopeDeg, at.betaDeg);
  }
  return sum;
}

/** Bilinear between the slopes and the angles on either side. */
function between(
  { slopesDeg, betasDeg }: Axes,
  values: Float32Array,
  slopeDeg: number,
  betaDeg: number,
): number {
  const columns = betasDeg.length;
  const rows = slopesDeg.length;
  const rowAt = Math.min(rows - 1, Math.max(0, slopeDeg / slopesDeg[1]!));
  const row = Math.min(rows - 2, Math.floor(rowAt));
  let column = 0;
  while (column < columns - 2 && betasDeg[column + 1]! <= betaDeg) column++;
  const down = rowAt - row;
  const across = (betaDeg - betasDeg[column]!) / (betasDeg[column + 1]! - betasDeg[column]!);
  const at = row * columns + column;
  const upper = values[at]! + across * (values[at + 1]! - values[at]!);
  const lower = values[at + columns]! + across * (values[at + columns + 1]! - values[at + columns]!);
  return upper + down * (lower - upper);
}

/** The normal spread of the slope, in steps of half a standard deviation. */
const normalPoints = Float64Array.from({ length: 15 }, (_, i) => (i - 7) / 2);
const densities = normalPoints.map((z) => Math.exp(-0.5 * z * z));
const densitySum = densities.reduce((sum, density) => sum + density, 0);
const normalWeights = densities.map((density) => density / densitySum);
