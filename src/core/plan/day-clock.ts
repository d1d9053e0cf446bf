import type { Problem } from '../domain/problem';
import type { Schedule } from '../domain/project';
import { ok, type Result } from '../domain/result';
import { clockIso, instantOf, timeOfDayMs } from '../pace/clock';

/** The clock of the day, which the plan asks for times and nothing else. */
export interface DayClock {
  /** Local time with its offset, ISO 8601, so many seconds after the start. */
  isoAt(secondsFromStart: number): string;
  /** Seconds from the start to a local time of day `HH:MM`, negative where that was before it; null: no time of day. */
  secondsUntil(timeOfDay: string): number | null;
  /** Seconds from the start to the time to be back by; null: not said, or not a time. */
  readonly backByS: number | null;
}

/** null where no start is given; a problem where it cannot be understood. */
export function dayClock(schedule: Schedule): Result<DayClock | null, Problem> {
  if (schedule.start === null) return ok(null);
  const { zone } = schedule;
  const start = instantOf(schedule.start, zone);
  if (!start.ok) return start;
  const startMs = start.value;
  const back = schedule.backBy === null ? null : instantOf(schedule.backBy, zone, 'back by');
  if (back !== null && !back.ok) return back;
  return ok({
    isoAt: (seconds) => clockIso(startMs + seconds * 1000, zone),
    secondsUntil(timeOfDay) {
      const ms = timeOfDayMs(timeOfDay, startMs, zone);
      return ms === null ? null : (ms - startMs) / 1000;
    },
    backByS: back === null ? null : (back.value - startMs) / 1000,
  });
}
