import type { Figures } from '../assumptions/figures';
import type { Tolerance } from '../domain/project';
import type { RunOutClass } from '../domain/station';

/**
 * Largest share of 100 modelled slips that may stay unheld above a run-out. Above a deadly one it eases towards the share
 * for an injuring one as the ground gets gentle, since slips are rarer there (judgement).
 */
export function tolerancePct(
  runOut: RunOutClass,
  designSlopeDeg: number,
  tolerance: Tolerance,
  { deadlyEasesFromDeg, deadlyEasesToDeg }: Figures['rule'],
): number {
  if (runOut === 'gentle') return tolerance.gentlePct;
  if (runOut === 'injuring') return tolerance.injuringPct;
  const easedPct = Math.max(tolerance.deadlyPct, tolerance.injuringPct);
  const span = deadlyEasesFromDeg - deadlyEasesToDeg;
  const eased = span > 0 ? (deadlyEasesFromDeg - designSlopeDeg) / span : 0;
  return tolerance.deadlyPct + Math.min(Math.max(eased, 0), 1) * (easedPct - tolerance.deadlyPct);
}
