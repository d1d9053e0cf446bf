import { isClockTime, isRealDate } from '../domain/calendar';

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
