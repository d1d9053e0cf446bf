import type { RunOutClass } from '../domain/station';

/** What is known about standing at a place. null: unknown, counted as the worst. */
export interface StandingPlace {
  readonly slopeDeg: number | null;
  readonly runOut: RunOutClass | null;
  /** A mark forbids standing here. */
  readonly forbidden: boolean;
  /** Marked as a good gathering place. */
  readonly good: boolean;
}

/** Seconds a place is worth avoiding (judgement): a minute for any unmarked one, more for what lies below and for steepness. */
const ordinaryS = 60;
const runOutS: Readonly<Record<RunOutClass, number>> = { gentle: 0, injuring: 60, deadly: 240 };
const steeperFromDeg = 15;
const perDegreeS = 6;
const unknownSlopeDeg = 60;
const forbiddenS = 1e6;

export function exposureS({ slopeDeg, runOut, forbidden, good }: StandingPlace): number {
  if (forbidden) return forbiddenS;
  if (good) return 0;
  const steepness = Math.max(0, (slopeDeg ?? unknownSlopeDeg) - steeperFromDeg) * perDegreeS;
  return ordinaryS + runOutS[runOut ?? 'deadly'] + steepness;
}

/** Where a team should not gather if it can help it. */
export const isBadPlace = ({ slopeDeg, runOut, forbidden, good }: StandingPlace): boolean =>
  forbidden || (!good && (slopeDeg === null || runOut === null || runOut === 'deadly'));

/** In plain words, with figures. */
export function placeText({ slopeDeg, runOut, forbidden, good }: StandingPlace): string {
  const slope = slopeDeg === null ? 'slope unknown' : `${slopeDeg.toFixed(0)}°`;
  const below = runOut === null ? 'run-out unknown' : `${runOut} run-out`;
  if (forbidden) return `a mark forbids standing here (${slope}, ${below})`;
  return good ? `marked good gathering place (${slope}, ${below})` : `${slope}, ${below}`;
}
