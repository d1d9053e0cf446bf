import type { Figures, Spread } from '../assumptions/figures';
import type { Rope } from '../domain/rope-team';
import type { Snow } from '../domain/snow';
import { labelModulusN, staticModulusN, testMassKg } from './rope-forces';
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
 * @param n climbers.
 * @param count slips for each climber.
 */
export function drawSlips(n: number, rope: Rope, snow: Snow, figures: Figures, count: number): Draws {
  const runners = Math.ceil(figures.pitch.maxM / figures.pitch.runnerM);
  const { uniform, normal } = chances(n, Math.max(1 + runners, 2 * (n - 1)), count);
  const { muSliding, muArresting } = figures.snow[snow.hardness];
  const { slackM, belayedSlackM, reactionS } = figures.rope;
  const modulus = modulusSpread(rope, figures);

  return {
    count,
    slope: normal[0]!,
    muSliding: uniform[1]!.map((u) => triangularQuantile(muSliding, u)),
    muArresting: uniform[2]!.map((u) => triangularQuantile(muArresting, u)),
    modulusN: uniform[3]!.map((u) => triangularQuantile(modulus, u)),
    slackM: uniform[4]!.map((u) => triangularQuantile(slackM, u)),
    belayedSlackM: uniform[4]!.map((u) => triangularQuantile(belayedSlackM, u)),
    progress: uniform[5]!,
    ability: uniform.slice(sharedDimensions, sharedDimensions + n),
    reactionS: uniform
      .slice(sharedDimensions + n)
      .map((us) => us.map((u) => triangularQuantile(reactionS, u))),
    strengthN: normal.slice(1).map((zs) => zs.map((z) => pieceStrengthN(figures, snow, z))),
  };
}

/** Rope modulus between its slow value and the label's, N per unit strain. A low-stretch cord has no such label. */
function modulusSpread(rope: Rope, figures: Figures): Spread {
  if (rope.lowStretch) {
    const { low, mode, high } = figures.rope.lowStretchModulusKN;
    return { low: 1000 * low, mode: 1000 * mode, high: 1000 * high };
  }
  const slowN = staticModulusN(rope.staticElongationPct);
  const massKg = rope.half ? testMassKg.half : testMassKg.single;
  const labelN = labelModulusN(1000 * rope.impactForceKN, figures.rope.testFallFactor, massKg);
  const low = Math.min(slowN, labelN);
  const high = Math.max(slowN, labelN);
  return { low, mode: low + figures.rope.modulusMode * (high - low), high };
}

interface Chances {
  /** What all slips share, then ability, then reaction of each climber. */
  readonly uniform: readonly Float64Array[];
  /** Slope, then strength of each piece. */
  readonly normal: readonly Float64Array[];
}

const remembered = new Map<string, Chances>();

/** The same for every team of a size, so made once: scrambling takes longer than the slips of one figure. */
function chances(climberCount: number, pieceCount: number, count: number): Chances {
  const key = `${climberCount}/${pieceCount}/${count}`;
  const known = remembered.get(key);
  if (known) return known;
  const uniformCount = sharedDimensions + 2 * climberCount;
  const points = sobolPoints(uniformCount + pieceCount, count);
  const made = {
    uniform: points.slice(0, uniformCount),
    normal: [points[0]!, ...points.slice(uniformCount)].map((us) => us.map(normalQuantile)),
  };
  remembered.set(key, made);
  return made;
}
