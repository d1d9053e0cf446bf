import { hardnesses, type Hardness } from '../domain/snow';
import { type RunOut } from '../domain/station';
import { isWorse } from './run-out';

/** Run-out by snow hardness; null without ground. */
export type RunOuts = Readonly<Record<Hardness, RunOut>> | null;

/**
 * Slides are followed from places this far apart at the closest, metres: on very fine rasters stations stand much closer, and
 * what lies between takes the worse of the two beside it. Judgement: half the usual step.
 */
const apartM = 2.5;

/**
 * Which stations slides are followed from: those that have ground and lie far enough from the last one that did.
 *
 * @param alongM of the stations that have ground, NaN for those that have none
 * @param lastM of the last source before these; -Infinity where there is none
 */
export function slideSources(alongM: readonly number[], lastM: number): boolean[] {
  let last = lastM;
  return alongM.map((at, i) => {
    const isGapBefore = i > 0 && Number.isNaN(alongM[i - 1]!);
    const isSource = !Number.isNaN(at) && (isGapBefore || at - last >= apartM - 1e-6);
    if (isSource) last = at;
    return isSource;
  });
}

/** Fills stations with ground between two sources with the worse of them, the ends with the one source beside them. */
export function fillBetween(runOuts: readonly RunOuts[], hasGround: readonly boolean[]): RunOuts[] {
  const filled = [...runOuts];
  let before: RunOuts = null;
  for (let i = 0; i < runOuts.length; i++) {
    if (!hasGround[i]!) before = null;
    else if (runOuts[i] !== null) before = runOuts[i]!;
    else filled[i] = worse(before, nextIn(runOuts, hasGround, i));
  }
  return filled;
}

function nextIn(runOuts: readonly RunOuts[], hasGround: readonly boolean[], from: number): RunOuts {
  for (let i = from; i < runOuts.length && hasGround[i]!; i++) if (runOuts[i] !== null) return runOuts[i]!;
  return null;
}

function worse(a: RunOuts, b: RunOuts): RunOuts {
  if (a === null || b === null) return a ?? b;
  return Object.fromEntries(
    hardnesses.map((hardness) => [hardness, isWorse(a[hardness], b[hardness]) ? a[hardness] : b[hardness]]),
  ) as Record<Hardness, RunOut>;
}
