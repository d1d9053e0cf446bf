import type { Figures } from '../assumptions/figures';
import type { Variant } from '../domain/mode';
import type { Party } from '../domain/rope-team';
import type { TimeSpan } from '../domain/segment';
import { actS, timeSpan, type Level } from './level';

/** How the team is on its rope; null where it does not travel (line's beginning, none holds, no ground data). */
export type RopeState = Variant | 'crossing' | null;

export interface TransitionOptions {
  readonly party: Party;
  readonly figures: Figures;
  /** The team turns round on its rope here: strongest last and highest on the way down. */
  readonly turnsRound?: boolean;
}

/**
 * Seconds to change from one way of travelling to another: brake knots off before pieces are clipped past and on again after,
 * the rope taken in or let out between the travelling interval and a pitch, the team turning round. The anchor a pitch or a
 * crossing begins with belongs to it. At a beginning the team stands roped and ready.
 */
export function transitionS(
  from: RopeState,
  to: RopeState,
  options: TransitionOptions,
  level: Level = 'usual',
): number {
  const { party, figures } = options;
  const turningS = options.turnsRound === true && to !== null ? actS(figures.act.turnRound, level) : 0;
  if (from === null || to === null) return turningS;

  const knots = (state: RopeState) => party.rope.brakeKnots && (state === 'roped' || state === 'crossing');
  const pitched = (state: RopeState) => state === 'pitched';
  const knotsS = knots(from) === knots(to) ? 0 : actS(figures.act.knots, level);
  const intervalS = pitched(from) === pitched(to) ? 0 : actS(figures.act.interval, level);
  return turningS + knotsS + intervalS;
}

export const transitionSpan = (from: RopeState, to: RopeState, options: TransitionOptions): TimeSpan =>
  timeSpan((level) => transitionS(from, to, options, level));
