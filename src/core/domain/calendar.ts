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

/** The same, within years that a plan can be for: a slip of the finger is caught. */
export const isPlanDate = (text: string): boolean => isRealDate(text) && text >= '1900' && text < '2201';

/** A time of day, with seconds or without. */
export const isClockTime = (text: string): boolean =>
  /^([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d{1,9})?)?$/.test(text);

/** A time of day as people type it, `04:30`. */
export const timeOfDayPattern = /^([01]\d|2[0-3]):[0-5]\d$/;
export const isTimeOfDay = (text: string): boolean => timeOfDayPattern.test(text);

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
