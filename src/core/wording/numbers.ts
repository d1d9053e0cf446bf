import {
  kilogramsPerPound,
  kilonewtonsPerPoundForce,
  metresPerFoot,
  metresPerMile,
  type Units,
} from './units';

/** Narrow no-break space: a number never parts from its unit. */
export const thin = '\u202f';

/** Four states that must never look alike. */
export const unknownText = 'unknown';
export const notComputedText = 'not computed';
/** The same in a narrow column, beside a dash for none; the key of the table says so. */
export const [unknownBrief, notComputedBrief] = ['?', 'n/c'];
export const noneText = 'none';

/** Plain digits with a true minus sign; never "-0". */
export function digits(value: number, decimals = 0): string {
  const text = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? `\u2212${text}` : text;
}

const known = (value: number | null): value is number => value !== null && Number.isFinite(value);

/** Short lengths and heights: whole metres or feet. null: unknown. */
export function shortLengthText(lengthM: number | null, units: Units): string {
  if (!known(lengthM)) return unknownText;
  return units === 'metric' ? `${digits(lengthM)}${thin}m` : `${digits(lengthM / metresPerFoot)}${thin}ft`;
}

/** Lengths along a line: metres or feet while short, kilometres or miles beyond. null: unknown. */
export function lengthText(lengthM: number | null, units: Units): string {
  if (!known(lengthM)) return unknownText;
  if (units === 'metric') {
    if (Math.abs(lengthM) < 999.5) return `${digits(lengthM)}${thin}m`;
    const km = lengthM / 1000;
    return `${digits(km, Math.abs(km) < 9.995 ? 2 : 1)}${thin}km`;
  }
  if (Math.abs(lengthM) < 0.25 * metresPerMile) return shortLengthText(lengthM, units);
  const miles = lengthM / metresPerMile;
  return `${digits(miles, Math.abs(miles) < 9.995 ? 2 : 1)}${thin}mi`;
}

/** A stretch, with one unit for both ends: `1.24–1.38 km`; a place where both read alike. */
export function stretchText(fromM: number, toM: number, units: Units): string {
  const end = lengthText(toM, units);
  const [, unit = ''] = end.split(thin);
  const inUnit: Record<string, [number, number]> = {
    m: [1, 0],
    km: [1000, Math.abs(toM) < 9995 ? 2 : 1],
    ft: [metresPerFoot, 0],
    mi: [metresPerMile, Math.abs(toM) < 9.995 * metresPerMile ? 2 : 1],
  };
  const [sizeM, decimals] = inUnit[unit] ?? [1, 0];
  const start = digits(fromM / sizeM, decimals);
  return end.startsWith(`${start}${thin}`) ? end : `${start}–${end}`;
}

/** Places along the line; a unit that several share is said once: `2.31, 2.35, 2.40 km`. */
export function placesAlongText(alongsM: readonly number[], units: Units): string {
  const texts = alongsM.map((alongM) => lengthText(alongM, units));
  const unitOf = (text: string | undefined) => text?.split(thin)[1];
  return texts
    .map((text, i) => (unitOf(text) === unitOf(texts[i + 1]) ? text.split(thin)[0] : text))
    .join(', ');
}

/** Rise of a stretch: up and down apart, since they cost differently. */
export function riseText(ascentM: number | null, descentM: number | null, units: Units): string {
  if (!known(ascentM) || !known(descentM)) return unknownText;
  const up = Math.round(ascentM);
  const down = Math.round(descentM);
  if (up === 0 && down === 0) return shortLengthText(0, units);
  const parts: string[] = [];
  if (up !== 0) parts.push(`+${shortLengthText(ascentM, units)}`);
  if (down !== 0) parts.push(`\u2212${shortLengthText(Math.abs(descentM), units)}`);
  return parts.join(' ');
}

/** Slopes at which rules change: a value just below one must not read as if it had reached it. */
const ruleSlopesDeg = [15, 20, 50, 60];

/** Whole degrees; `just under 50°` where rounding would cross a rule. null: unknown. */
export function slopeText(slopeDeg: number | null): string {
  if (!known(slopeDeg)) return unknownText;
  const rounded = Math.round(slopeDeg);
  return rounded > slopeDeg && ruleSlopesDeg.includes(rounded)
    ? `just under ${digits(rounded)}°`
    : `${digits(slopeDeg)}°`;
}

/** A class of grades: `10–20°`, `over 30°`. */
export const gradeClassText = (fromDeg: number, toDeg: number): string =>
  toDeg >= 90 ? `over ${digits(fromDeg)}°` : `${digits(fromDeg)}–${digits(toDeg)}°`;

/** `31° (28–34°)`: the value and one standard deviation to both sides. */
export function slopeRangeText(slopeDeg: number | null, sigmaDeg: number | null): string {
  if (!known(slopeDeg) || !known(sigmaDeg)) return slopeText(slopeDeg);
  const low = digits(Math.max(0, slopeDeg - sigmaDeg));
  return `${slopeText(slopeDeg)} (${low}–${digits(slopeDeg + sigmaDeg)}°)`;
}

/** Three digits, as bearings are read out: `047°`. */
export function bearingText(bearingDeg: number | null): string {
  if (!known(bearingDeg)) return unknownText;
  const turn = ((Math.round(bearingDeg) % 360) + 360) % 360;
  return `${String(turn).padStart(3, '0')}°`;
}

const compass = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'] as const;

/** Eight-point facing of a slope. null: unknown. */
export function facingText(aspectDeg: number | null): string {
  if (!known(aspectDeg)) return unknownText;
  return compass[((Math.round(aspectDeg / 45) % 8) + 8) % 8]!;
}

export function forceText(forceKN: number | null, units: Units): string {
  if (!known(forceKN)) return unknownText;
  return units === 'metric'
    ? `${digits(forceKN, 1)}${thin}kN`
    : `${digits(Math.round(forceKN / kilonewtonsPerPoundForce / 10) * 10)}${thin}lbf`;
}

export function massText(massKg: number | null, units: Units): string {
  if (!known(massKg)) return unknownText;
  return units === 'metric' ? `${digits(massKg)}${thin}kg` : `${digits(massKg / kilogramsPerPound)}${thin}lb`;
}

/** A share of 100 modelled slips: whole numbers; `under 1` and `over 99` instead of a false 0 or 100. */
export function shareText(share: number | null): string {
  if (!known(share)) return unknownText;
  if (share > 0 && share < 0.5) return 'under 1';
  if (share < 100 && share >= 99.5) return 'over 99';
  return digits(share);
}

/** `1 piece`, `3 pieces`, `none`. */
export function countText(count: number | null, one: string, many = `${one}s`): string {
  if (!known(count)) return unknownText;
  if (count === 0) return noneText;
  return `${digits(count)} ${count === 1 ? one : many}`;
}

/** What something takes on a disk: `34 kB`, `1.2 MB`. */
export function bytesText(bytes: number): string {
  if (bytes < 999.5) return `${digits(bytes)}${thin}bytes`;
  if (bytes < 999_500) return `${digits(bytes / 1e3)}${thin}kB`;
  const mega = bytes / 1e6;
  return mega < 999.5 ? `${digits(mega, mega < 9.95 ? 1 : 0)}${thin}MB` : `${digits(mega / 1e3, 1)}${thin}GB`;
}

/** With a capital, as a sentence begins. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
