/** A calendar date that exists, `2031-05-02`, within years that a plan can be for. */
export function isDate(text: string): boolean {
  const found = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!found) return false;
  const year = Number(found[1]);
  if (year < 1900 || year > 2200) return false;
  const instant = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(instant.getTime()) && instant.toISOString().startsWith(text);
}

/** A time of day, `04:30`. */
export const isClock = (text: string): boolean => /^([01]\d|2[0-3]):[0-5]\d$/.test(text);
