/** Dates and times as text. Only what exists in the calendar passes: no 30 February, no 24:00. */

const monthDays = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** ISO date, years 1000 to 2999. */
export function isRealDate(text: string): boolean {
  const match = /^([12]\d{3})-(\d{2})-(\d{2})$/.exec(text);
  if (match === null) return false;
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const days = month === 2 && isLeap ? 29 : (monthDays[month - 1] ?? 0);
  return day >= 1 && day <= days;
}

export const isClockTime = (text: string): boolean =>
  /^([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d{1,9})?)?$/.test(text);

/** Local date and time without zone, `2026-05-14T04:30`. */
export function isLocalDateTime(text: string): boolean {
  const [date, time, ...rest] = text.split('T');
  return (
    date !== undefined && time !== undefined && rest.length === 0 && isRealDate(date) && isClockTime(time)
  );
}

/** A zone that this platform knows. */
export function isTimeZone(text: string): boolean {
  try {
    return text.length > 0 && new Intl.DateTimeFormat('en', { timeZone: text }).format(0) !== '';
  } catch {
    return false;
  }
}

export interface Instant {
  readonly timeMs: number;
  /** Written with a space for the `T`, as some exporters do. */
  readonly tolerated: boolean;
}

/** An instant by ISO 8601 with a zone; 'no zone' where it has none; null where it is no time. */
export function readInstant(text: string): Instant | 'no zone' | null {
  const match = /^(\d{4}-\d{2}-\d{2})([Tt ])(\d{2}:\d{2}:\d{2})(\.\d+)? ?(Z|z|[+-]\d{2}:?\d{2})?$/.exec(
    text.trim(),
  );
  const [, date, separator, time, fraction, zone] = match ?? [];
  if (date === undefined || time === undefined || !isRealDate(date) || !isClockTime(time)) return null;
  if (zone === undefined) return 'no zone';
  const [hours, minutes] = [Number(zone.slice(1, 3)), Number(zone.slice(-2))];
  const isUtc = zone === 'Z' || zone === 'z';
  if (!isUtc && (hours > 14 || minutes > 59)) return null;
  const offsetMs = isUtc ? 0 : (zone.startsWith('-') ? -1 : 1) * (hours * 60 + minutes) * 60_000;
  const wholeMs = Date.parse(`${date}T${time}Z`);
  const fractionMs = fraction === undefined ? 0 : Math.round(Number(`0${fraction}`) * 1000);
  return { timeMs: wholeMs + fractionMs - offsetMs, tolerated: separator === ' ' };
}
