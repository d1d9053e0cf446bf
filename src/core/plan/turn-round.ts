import type { Plan } from '../domain/segment';
import type { DayClock } from './day-clock';

/** Latest local times to turn round and be back in time. */
export interface TurnRound {
  /** If the way back takes as long as expected. */
  readonly usual: string;
  /** If it goes slowly. */
  readonly slow: string;
  readonly usualS: number;
}

/** null without a time to be back by, or where the way back's time cannot be told. */
export function turnRound(clock: DayClock | null, { totals }: Plan): TurnRound | null {
  if (clock?.backByS == null || totals.notComputedBeyondM !== null) return null;
  const usualS = clock.backByS - totals.time.defaultS;
  return {
    usual: clock.isoAt(usualS),
    slow: clock.isoAt(clock.backByS - totals.time.highS),
    usualS,
  };
}
