import { isPlanDate, isTimeOfDay, isTimeZone } from '../domain/calendar';

/** Offset from UTC at an instant, milliseconds, positive east. The zone must be known. */
function offsetMs(instantMs: number, zone: string): number {
  const parts = new Intl.DateTimeFormat('en', {
    timeZone: zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
  }).formatToParts(instantMs);
  const part = (type: string) => Number(parts.find((one) => one.type === type)!.value);
  const localMs = Date.UTC(part('year'), part('month') - 1, part('day'), part('hour'), part('minute'));
  return localMs - Math.floor(instantMs / 60_000) * 60_000;
}

const dayMs = 86_400_000;

/** Instants that read as this local time (`2031-05-14T04:30`): none in a gap of summer time, two where an hour repeats. */
export function instantsOf(local: string, zone: string): number[] {
  const localMs = Date.parse(`${local}:00Z`);
  const offsets = new Set([offsetMs(localMs - dayMs, zone), offsetMs(localMs + dayMs, zone)]);
  return [...offsets]
    .map((offset) => ({ instantMs: localMs - offset, offset }))
    .filter(({ instantMs, offset }) => offsetMs(instantMs, zone) === offset)
    .map(({ instantMs }) => instantMs)
    .sort((a, b) => a - b);
}

export type LocalTimeReading =
  | { readonly ok: true; readonly value: string; readonly note: string | null }
  | { readonly ok: false; readonly message: string };

/** Reads a date and a time of day in a zone, typed apart. */
export function readLocalTime(date: string, clock: string, zone: string): LocalTimeReading {
  if (!isPlanDate(date)) {
    return {
      ok: false,
      message: `“${date}” is not a date. Enter year, month and day, for example 2031-05-14`,
    };
  }
  if (!isTimeOfDay(clock)) {
    return { ok: false, message: `“${clock}” is not a time. Enter hours and minutes, for example 04:30` };
  }
  if (!isTimeZone(zone)) return { ok: false, message: `The time zone “${zone}” is not known on this device` };
  const value = `${date}T${clock}`;
  const count = instantsOf(value, zone).length;
  if (count === 0) {
    return {
      ok: false,
      message: `${clock} does not exist on ${date} in ${zone}: clocks go forward. Enter another time`,
    };
  }
  return {
    ok: true,
    value,
    note: count === 2 ? `${clock} comes twice on ${date} in ${zone}: the first is taken` : null,
  };
}
