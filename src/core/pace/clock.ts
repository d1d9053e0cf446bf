import { Temporal } from 'temporal-polyfill';
import { isTimeOfDay, isTimeZone } from '../domain/calendar';
import type { Problem } from '../domain/problem';
import { fail, ok, type Result } from '../domain/result';

const localForm = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?$/;
const offsetForm = /(Z|[+-]\d{2}:?\d{2})$/i;

/**
 * The instant of a local time in an IANA zone: milliseconds since 1970-01-01T00:00Z. A time the clocks skip or show twice is
 * asked back; with its offset (`2026-10-25T02:30+01:00`) a repeated time is plain.
 */
export function instantOf(time: string, zone: string, subject = 'start'): Result<number, Problem> {
  const problem = (code: string, title: string, remedy: string) =>
    fail<Problem>({ code, subject, place: time === '' ? null : time, title, remedy });

  if (!isTimeZone(zone)) {
    return problem(
      'CLOCK-001',
      `the time zone "${zone}" is not known`,
      'Name a zone such as Atlantic/Azores or UTC.',
    );
  }
  const offset = offsetForm.exec(time)?.[0];
  const local = offset === undefined ? time : time.slice(0, -offset.length);
  const clock = localForm.test(local) ? parsed(local) : null;
  if (clock === null) {
    return problem('CLOCK-002', 'not a date and time', 'Write it as 2026-05-14T04:30.');
  }
  if (offset !== undefined) {
    const ms = instantWithOffset(local, offset);
    if (ms !== null) return ok(ms);
    return problem('CLOCK-002', `no such offset as ${offset}`, 'Write it as 2026-05-14T04:30+02:00.');
  }

  const earlier = clock.toZonedDateTime(zone, { disambiguation: 'earlier' });
  const later = clock.toZonedDateTime(zone, { disambiguation: 'later' });
  if (earlier.epochMilliseconds === later.epochMilliseconds) return ok(earlier.epochMilliseconds);
  const exists = earlier.toPlainDateTime().equals(clock);
  if (!exists) {
    const [before, after] = [hourMinute(earlier), hourMinute(later)];
    return problem(
      'CLOCK-003',
      `the clocks in ${zone} skip this time`,
      `Choose ${before} or ${after} that night.`,
    );
  }
  const [first, second] = [withOffset(earlier), withOffset(later)];
  return problem('CLOCK-004', `the clocks in ${zone} show this time twice`, `Write ${first} or ${second}.`);
}

/** Clock time with offset, to the second: `2026-05-14T04:30:00+02:00`. The zone must be known. */
export function clockIso(epochMs: number, zone: string): string {
  return zoned(Math.round(epochMs / 1000) * 1000, zone).toString({
    timeZoneName: 'never',
    smallestUnit: 'second',
  });
}

/**
 * When a time of day comes on a day in the mountains: between six hours before the start and eighteen after it.
 * @param at local time, `HH:MM`
 * @returns milliseconds since 1970; null if `at` is no time of day
 */
export function timeOfDayMs(at: string, startMs: number, zone: string): number | null {
  if (!isTimeOfDay(at)) return null;
  const dayBegins = zoned(startMs, zone).subtract({ hours: 6 });
  for (const days of [0, 1]) {
    const date = dayBegins.toPlainDate().add({ days });
    const instant = date.toZonedDateTime({ timeZone: zone, plainTime: Temporal.PlainTime.from(at) });
    if (instant.epochMilliseconds >= dayBegins.epochMilliseconds) return instant.epochMilliseconds;
  }
  return null;
}

const zoned = (epochMs: number, zone: string) =>
  Temporal.Instant.fromEpochMilliseconds(epochMs).toZonedDateTimeISO(zone);

function parsed(local: string): Temporal.PlainDateTime | null {
  try {
    return Temporal.PlainDateTime.from(local, { overflow: 'reject' });
  } catch {
    return null;
  }
}

function instantWithOffset(local: string, offset: string): number | null {
  try {
    return Temporal.Instant.from(`${local}${offset}`).epochMilliseconds;
  } catch {
    return null;
  }
}

const hourMinute = (time: Temporal.ZonedDateTime) => time.toPlainTime().toString({ smallestUnit: 'minute' });

const withOffset = (time: Temporal.ZonedDateTime) =>
  time.toString({ timeZoneName: 'never', smallestUnit: 'minute' });
