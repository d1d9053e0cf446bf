/** This device's time with its offset from UTC: `2026-05-14T04:30:00+02:00`. */
export function localIso(atMs: number): string {
  const date = new Date(atMs);
  const offsetMin = -date.getTimezoneOffset();
  const local = new Date(date.getTime() + offsetMin * 60_000).toISOString().slice(0, 19);
  const sign = offsetMin < 0 ? '-' : '+';
  const two = (n: number) => String(Math.floor(n)).padStart(2, '0');
  return `${local}${sign}${two(Math.abs(offsetMin) / 60)}:${two(Math.abs(offsetMin) % 60)}`;
}

/** For reading, on this device's clock: `2026-05-14 04:30`. */
export const localText = (atMs: number): string => localIso(atMs).slice(0, 16).replace('T', ' ');

/** The same with seconds, without the day: `04:30:00`. */
export const localClock = (atMs: number): string => localIso(atMs).slice(11, 19);
