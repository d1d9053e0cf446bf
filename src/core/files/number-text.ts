/** Decimals of machine formats: what is known, not what a double can hold. */
export const decimals = { lngLat: 9, metres: 3, angle: 4, curvature: 8, seconds: 3, share: 2 } as const;

/** Plain digits with a point, never an exponent, never "-0". Throws on what is no finite number. */
export function fixed(value: number, places: number): string {
  if (!Number.isFinite(value)) throw new Error('a number that is not finite cannot be written');
  const text = value.toFixed(places);
  return value <= 0 && value > -1 && text.startsWith('-') && Number(text) === 0 ? text.slice(1) : text;
}

/** As fixed with one decimal or more, without zeros at the end. */
export function trimmed(value: number, places: number): string {
  return fixed(value, places).replace(/\.?0+$/, '');
}

/** Rounded for JSON; null and NaN, the unknown, stay unknown. */
export function rounded(value: number | null | undefined, places: number): number | null {
  if (value === null || value === undefined || Number.isNaN(value)) return null;
  return Number(fixed(value, places));
}

/** A longitude as text, -180 <= text < 180 after rounding too. */
export function lngText(lngDeg: number): string {
  const text = trimmed(lngDeg, decimals.lngLat);
  return text === '180' ? '-180' : text;
}
