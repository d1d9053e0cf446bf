import type { Plan } from '../domain/segment';
import { clockSinceText } from '../wording/time';
import type { DayClock } from './day-clock';

/** Latest local times to turn round and be back in time; null: before the day begins, so there is no time for it at all. */
export interface TurnRound {
  /** If the way back takes as long as expected. */
  readonly usual: string | null;
  /** If it goes slowly. */
  readonly slow: string | null;
  /** The first, seconds from the start. */
  readonly usualS: number;
}

/** null without a time to be back by, or where the way back's time cannot be told. */
export function turnRound(clock: DayClock | null, { totals }: Plan): TurnRound | null {
  if (clock?.backByS == null || totals.notComputedBeyondM !== null) return null;
  const { backByS } = clock;
  const latest = (wayBackS: number) => (wayBackS > backByS ? null : clock.isoAt(backByS - wayBackS));
  const { defaultS, highS } = totals.time;
  return { usual: latest(defaultS), slow: latest(highS), usualS: backByS - defaultS };
}

/** The way back alone takes longer than the day. */
export const hasNoTurnRound = ({ warnings }: Plan): boolean =>
  warnings.some(({ code }) => code === 'no-turn-round');

/** Latest clock time to turn round, in words where there is none. */
export const turnRoundText = (plan: Plan): string =>
  hasNoTurnRound(plan)
    ? 'no time for it'
    : clockSinceText(plan.totals.turnRound, plan.segments[0]?.arrive ?? null);
