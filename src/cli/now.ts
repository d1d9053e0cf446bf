/**
 * The present time; or the one that SOURCE_DATE_EPOCH sets, seconds since 1970, so that the same input gives the same bytes on
 * any day.
 *
 * @source reproducible-builds.org, "SOURCE_DATE_EPOCH specification"
 */
export function now(): Date {
  const seconds = process.env['SOURCE_DATE_EPOCH'] ?? '';
  return /^\d{1,11}$/.test(seconds) ? new Date(Number(seconds) * 1000) : new Date();
}
