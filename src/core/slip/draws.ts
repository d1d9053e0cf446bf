import type { Figures, Spread } from '../assumptions/figures';
import type { Climber, Rope } from '../domain/rope-team';
import type { Snow } from '../domain/snow';
import { labelModulusN, staticModulusN } from './rope-forces';
import { pieceStrengthN } from './piece-strength';
import { normalQuantile, sobolPoints, triangularQuantile } from './sampling';

/**
 * What chance decides in a slip, drawn once and used on every slope: so that figures for two slopes, two snows or two
 * teams differ by what differs between them and not by luck.
 */
export interface Draws {
  readonly count: number;
  /** Standard normal. */
  readonly slope: Float64Array;
  readonly muSliding: Float64Array;
  readonly muArresting: Float64Array;
  readonly modulusN: Float64Array;
  readonly slackM: Float64Array;
  readonly belayedSlackM: Float64Array;
  /** Part of a spacing the lead is past the last piece, or of a pitch that is climbed. */
  readonly progress: Float64Array;
  /** Per climber by height, 0 to 1: able where below the climber's share. */
  readonly ability: readonly Float64Array[];
  readonly reactionS: readonly Float64Array[];
  /** Per piece, highest first: two for each interval, or an anchor's piece and the runners from the stance on. */
  readonly strengthN: readonly Float64Array[];
}

const sharedDimensions = 6;

/**
 * @param climbers highest first.
 * @param count slips for each climber.
 */
export function drawSlips(
  climbers: readonly Climber[],
  rope: Rope,
  snow: Snow,
  figures: Figures,
  count: number,
): Draws {
  const n = climbers.length;
  const runners = Math.ceil(figures.pitch.maxM / figures.pitch.runnerM);
  const pieceCount = Math.max(1 + runners, 2 * (n - 1));
  const points = uniformPoints(sharedDimensions + 2 * n + pieceCount, count);
  const { muSliding, muArresting } = figures.snow[snow.hardness];
  const { slackM, belayedSlackM, reactionS } = figures.rope;
  const modulus = modulusSpread(rope, figures);
  const at = (first: number, length: number) => points.slice(first, first + length);

  return {
    count,
    slope: points[0]!.map(normalQuantile),
    muSliding: points[1]!.map((u) => triangularQuantile(muSliding, u)),
    muArresting: points[2]!.map((u) => triangularQuantile(muArresting, u)),
    modulusN: points[3]!.map((u) => triangularQuantile(modulus, u)),
    slackM: points[4]!.map((u) => triangularQuantile(slackM, u)),
    belayedSlackM: points[4]!.map((u) => triangularQuantile(belayedSlackM, u)),
    progress: points[5]!,
    ability: at(sharedDimensions, n),
    reactionS: at(sharedDimensions + n, n).map((us) => us.map((u) => triangularQuantile(reactionS, u))),
    strengthN: at(sharedDimensions + 2 * n, pieceCount).map((us) =>
      us.map((u) => pieceStrengthN(figures, snow, normalQuantile(u))),
    ),
  };
}

/** Rope modulus between its slow value and the label's, N per unit strain. A low-stretch cord has no such label. */
function modulusSpread(rope: Rope, figures: Figures): Spread {
  if (rope.lowStretch) {
    const { low, mode, high } = figures.rope.lowStretchModulusKN;
    return { low: 1000 * low, mode: 1000 * mode, high: 1000 * high };
  }
  const slowN = staticModulusN(rope.staticElongationPct);
  const labelN = labelModulusN(1000 * rope.impactForceKN, figures.rope.testFallFactor);
  const low = Math.min(slowN, labelN);
  const high = Math.max(slowN, labelN);
  return { low, mode: low + figures.rope.modulusMode * (high - low), high };
}

const remembered = new Map<string, Float64Array[]>();

/** Scrambling takes longer than the slips of one figure: the points are the same for every team of a size. */
function uniformPoints(dimensions: number, count: number): Float64Array[] {
  const key = `${dimensions}/${count}`;
  let points = remembered.get(key);
  if (!points) {
    points = sobolPoints(dimensions, count);
    remembered.set(key, points);
  }
  return points;
}
