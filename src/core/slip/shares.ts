import { defaultFigures, type Figures } from '../assumptions/figures';
import type { Variant } from '../domain/mode';
import type { Party } from '../domain/rope-team';
import type { Shares, SlipShares } from '../domain/slip-shares';
import type { Snow } from '../domain/snow';
import { drawSlips, type Draws } from './draws';
import { longestPitchM, OnePitch } from './one-pitch';
import { OneSlip } from './one-slip';
import { medianStrengthKN } from './piece-strength';

export interface SlipInput {
  /** Climbers from the lead to the last, as on the rope. */
  readonly party: Party;
  readonly variant: Variant;
  readonly snow: Snow;
  readonly slopeDeg: number;
  /** Between the line and the fall line, 0 to 180; folded to 0 to 90. */
  readonly betaDeg: number;
  /** Standard deviation of the slope; what the figures say if less. */
  readonly slopeSigmaDeg?: number;
  readonly goingDown?: boolean;
  readonly figures?: Figures;
  readonly slipsPerClimber?: number;
  /** A capture device on every piece, whatever the rack holds. */
  readonly allDevices?: boolean;
}

/** Slips for each climber: a power of two, so that the points are evenly spread. */
const defaultSlips = 2048;

const endings = 5;

/** Shares of 100 modelled slips of this team. The same input gives the same figures. */
export function simulateShares(input: SlipInput): SlipShares {
  const { party, snow } = input;
  const figures = input.figures ?? defaultFigures;
  const n = party.climbers.length;
  const order = heightOrder(n, input.goingDown ?? false);
  const climbers = order.map((i) => party.climbers[i]!);
  const count = input.slipsPerClimber ?? defaultSlips;
  const draws = drawSlips(climbers, party.rope, snow, figures, count);
  const sigmaDeg = Math.max(figures.slope.spreadDeg, input.slopeSigmaDeg ?? 0);
  const slip = slipFollower({ ...input, figures }, climbers, draws, sigmaDeg);

  const ends = new Float64Array(n * endings);
  const leadPulled = new Float64Array(n);
  const loads: { loadN: number; weight: number }[] = [];
  for (let i = 0; i < count; i++) {
    slip.draw(i);
    for (let slipper = 0; slipper < n; slipper++) {
      const at = slipper * endings + slip.follow(slipper);
      ends[at] = ends[at]! + 1;
      if (slip.leadPulledOff) leadPulled[slipper] = leadPulled[slipper]! + 1;
      if (slip.loadN > 0) {
        loads.push({ loadN: slip.loadN, weight: figures.ability[climbers[slipper]!.ability].slips });
      }
    }
  }

  const weights = climbers.map(({ ability }) => figures.ability[ability].slips);
  const perSlipper = climbers.map((_, slipper) => sharesOf(ends, slipper, count));
  return {
    ...weightedShares(perSlipper, weights),
    leadPulledOff: weightedMean(
      Array.from(leadPulled.subarray(1), (times) => (100 * times) / count),
      weights.slice(1),
    ),
    bySlipper: party.climbers.map((_, i) => perSlipper[order.indexOf(i)]!),
    pieceLoadKN: loadQuantiles(loads),
  };
}

/** Which climber stands highest, second, and so on: going down, the last on the rope is the highest. */
function heightOrder(n: number, goingDown: boolean): number[] {
  return Array.from({ length: n }, (_, height) => (goingDown ? n - 1 - height : height));
}

/** Line and fall line: 0 straight up or down, 90 across, whichever way one goes. */
export function foldedBetaDeg(betaDeg: number): number {
  const turned = Math.abs(betaDeg) % 180;
  return Math.min(turned, 180 - turned);
}

/**
 * What follows slips on this ground.
 *
 * @param climbers highest first.
 * @param slopeSigmaDeg spread of the slope; 0 for a slope known exactly.
 */
export function slipFollower(
  input: SlipInput & { readonly figures: Figures },
  climbers: Party['climbers'],
  draws: Draws,
  slopeSigmaDeg: number,
): OneSlip | OnePitch {
  const { party, variant, figures } = input;
  const goingDown = input.goingDown ?? false;
  const ground = {
    climbers,
    slopeDeg: input.slopeDeg,
    slopeSigmaDeg,
    betaDeg: foldedBetaDeg(input.betaDeg),
    figures,
  };
  if (variant === 'pitched') {
    return new OnePitch({ ...ground, pitchM: longestPitchM(party.rope, climbers.length, figures) }, draws);
  }
  return new OneSlip(
    {
      ...ground,
      intervalM: party.rope.intervalM,
      piecesPerInterval: piecesPerInterval(variant, medianStrengthKN(figures, input.snow)),
      devices: variant === 'running-capture' && !goingDown ? devicesOnPieces(party, input.allDevices) : 0,
      goingDown,
    },
    draws,
  );
}

/** Where snow holds nothing at all there is no piece. */
function piecesPerInterval(variant: Variant, medianKN: number): 0 | 1 | 2 {
  if (variant === 'roped' || medianKN <= 0) return 0;
  return variant === 'running-double' ? 2 : 1;
}

/** One device stays in the lead's hand for the next piece. */
function devicesOnPieces({ rack }: Party, allDevices = false): number {
  return allDevices ? Infinity : Math.max(0, rack.captureDevices - 1);
}

function sharesOf(ends: Float64Array, slipper: number, count: number): Shares {
  const share = (end: number) => (100 * ends[slipper * endings + end]!) / count;
  return { itself: share(0), ownArrest: share(1), mates: share(2), piece: share(3), unheld: share(4) };
}

function weightedShares(perSlipper: readonly Shares[], weights: readonly number[]): Shares {
  const mean = (key: keyof Shares) =>
    weightedMean(
      perSlipper.map((shares) => shares[key]),
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

function weightedMean(values: readonly number[], weights: readonly number[]): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return values.reduce((sum, value, i) => sum + value * weights[i]!, 0) / total;
}

function loadQuantiles(loads: { loadN: number; weight: number }[]): SlipShares['pieceLoadKN'] {
  if (loads.length === 0) return null;
  loads.sort((a, b) => a.loadN - b.loadN);
  const total = loads.reduce((sum, { weight }) => sum + weight, 0);
  const quantile = (share: number) => {
    let below = 0;
    for (const { loadN, weight } of loads) {
      below += weight;
      if (below >= share * total) return loadN / 1000;
    }
    return loads.at(-1)!.loadN / 1000;
  };
  return { p50: quantile(0.5), p95: quantile(0.95) };
}
