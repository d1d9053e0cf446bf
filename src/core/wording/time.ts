import type { TimeSpan } from '../domain/segment';
import { digits, notComputedText, thin } from './numbers';

/** `1 h 05`, `35 min`, `under 1 min`, `0 min`. null: not computed. */
export function durationText(seconds: number | null): string {
  if (seconds === null || !Number.isFinite(seconds)) return notComputedText;
  if (seconds > 0 && seconds < 30) return `under 1${thin}min`;
  const minutes = Math.round(Math.abs(seconds) / 60);
  const sign = seconds < 0 && minutes > 0 ? '\u2212' : '';
  if (minutes < 60) return `${sign}${digits(minutes)}${thin}min`;
  const rest = String(minutes % 60).padStart(2, '0');
  return `${sign}${digits(Math.floor(minutes / 60))}${thin}h${thin}${rest}`;
}

/** `1 h 05 – 1 h 50`; minutes with one unit for both: `18–33 min`. */
export function rangeText({ lowS, highS }: TimeSpan): string {
  const [low, high] = [durationText(lowS), durationText(highS)];
  const minutes = /^(\d+)\u202fmin$/;
  const short = minutes.exec(low)?.[1];
  return short !== undefined && minutes.test(high) ? `${short}–${high}` : `${low} – ${high}`;
}

/** A difference with its sign: `+12 min`, `−1 h 05`, `no difference`. */
export function differenceText(seconds: number): string {
  if (Math.round(seconds / 60) === 0) return 'no difference';
  return seconds > 0 ? `+${durationText(seconds)}` : durationText(seconds);
}

const isoLocal = /^(\d{4}-\d{2}-\d{2})T(\d{2}:\d{2})/;

/** Clock of an ISO time as written, in its own zone: `06:10`. null: not computed. */
export function clockText(iso: string | null): string {
  const found = iso === null ? null : isoLocal.exec(iso);
  return found?.[2] ?? notComputedText;
}

/** Clock with `next day` (or `+2 days`) where the date is later than that of `since`. */
export function clockSinceText(iso: string | null, since: string | null): string {
  const day = (text: string | null) => (text === null ? null : (isoLocal.exec(text)?.[1] ?? null));
  const [from, to] = [day(since), day(iso)];
  const clock = clockText(iso);
  if (from === null || to === null || from === to) return clock;
  const days = Math.round((Date.parse(to) - Date.parse(from)) / 86_400_000);
  return days === 1 ? `${clock} next day` : `${clock} (${days > 0 ? '+' : '\u2212'}${Math.abs(days)} days)`;
}

/** The same where room is short: `00:02 +1\u202fd`. */
export function clockBriefText(iso: string | null, since: string | null): string {
  return clockSinceText(iso, since).replace(
    / (?:next day|\(\+(\d+) days\))$/,
    (_, days = '1') => ` +${days}\u202fd`,
  );
}

/** The same instant in UTC: `04:10 UTC`. */
export function utcText(iso: string | null): string {
  if (iso === null) return notComputedText;
  const instant = new Date(iso);
  if (Number.isNaN(instant.getTime())) return notComputedText;
  return `${instant.toISOString().slice(11, 16)}${thin}UTC`;
}
