import { defaultFigures, type Figures } from '../assumptions/figures';
import type { Shares, SlipShares } from '../domain/slip-shares';
import { drawSlips } from './draws';
import { byHeight, slipFollower, type WayToGo } from './slip-follower';

export interface SlipInput extends WayToGo {
  readonly slopeDeg: number;
  /** Between the line and the fall line, 0 to 180; folded to 0 to 90. */
  readonly betaDeg: number;
  /** Standard deviation of the slope; what the figures say if less. */
  readonly slopeSigmaDeg?: number;
  readonly figures?: Figures;
  readonly slipsPerClimber?: number;
}

/** A power of two, so that the points are evenly spread. */
const defaultSlips = 2048;

const endings = 5;

/** Shares of 100 modelled slips of this team. The same input gives the same figures. */
export function simulateShares(input: SlipInput): SlipShares {
  const { party, snow, goingDown = false, figures = defaultFigures } = input;
  const count = input.slipsPerClimber ?? defaultSlips;
  const climbers = byHeight(party.climbers, goingDown);
  const n = climbers.length;
  const draws = drawSlips(n, party.rope, snow, figures, count);
  const slip = slipFollower(input, input.betaDeg, figures, draws);
  const sigmaDeg = Math.max(figures.slope.spreadDeg, input.slopeSigmaDeg ?? 0);

  const ends = new Float64Array(n * endings);
  const leadPulled = new Float64Array(n);
  const loadsN = new Float64Array(n * count);
  for (let i = 0; i < count; i++) {
    slip.draw(i);
    slip.standOn(Math.max(0, input.slopeDeg + sigmaDeg * draws.slope[i]!));
    for (let slipper = 0; slipper < n; slipper++) {
      const at = slipper * endings + slip.follow(slipper);
      ends[at] = ends[at]! + 1;
      if (slip.leadPulledOff) leadPulled[slipper] = leadPulled[slipper]! + 1;
      loadsN[slipper * count + i] = slip.loadN;
    }
  }

  const weights = climbers.map(({ ability }) => figures.ability[ability].slips);
  const bySlipper = climbers.map((_, slipper) => sharesOf(ends, slipper, count));
  const leadPulledPct = Array.from(leadPulled, (times) => (100 * times) / count);
  return {
    ...weightedShares(bySlipper, weights),
    leadPulledOff: weightedMean(leadPulledPct.slice(1), weights.slice(1)),
    bySlipper: byHeight(bySlipper, goingDown),
    pieceLoadKN: loadQuantiles(loadsN, count, weights),
  };
}

function sharesOf(ends: Float64Array, slipper: number, count: number): Shares {
  const share = (end: number) => (100 * ends[slipper * endings + end]!) / count;
  return { itself: share(0), ownArrest: share(1), mates: share(2), piece: share(3), unheld: share(4) };
}

function weightedShares(bySlipper: readonly Shares[], weights: readonly number[]): Shares {
  const mean = (key: keyof Shares) =>
    weightedMean(
      bySlipper.map((shares) => shares[key]),
      weights,
    );
  return {
    itself: mean('itself'),
    ownArrest: mean('ownArrest'),
    mates: mean('mates'),
    piece: mean('piece'),
    unheld: mean('unheld'),
  };
}

/** NaN of nothing. */
function weightedMean(values: readonly number[], weights: readonly number[]): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return values.reduce((sum, value, i) => sum + value * weights[i]!, 0) / total;
}

/** Over the slips that load a piece, each weighted by its slipper. */
function loadQuantiles(
  loadsN: Float64Array,
  count: number,
  weights: readonly number[],
): SlipShares['pieceLoadKN'] {
  const loaded = Uint32Array.from(loadsN.keys())
    .filter((i) => loadsN[i]! > 0)
    .sort((a, b) => loadsN[a]! - loadsN[b]!);
  if (loaded.length === 0) return null;
  const weightOf = (i: number) => weights[Math.floor(i / count)]!;
  const total = loaded.reduce((sum, i) => sum + weightOf(i), 0);
  const quantileKN = (share: number) => {
    let below = 0;
    const at = loaded.find((i) => (below += weightOf(i)) >= share * total)!;
    return loadsN[at]! / 1000;
  };
  return { p50: quantileKN(0.5), p95: quantileKN(0.95) };
}
