import type { Warning } from '../domain/segment';
import { stretchText } from '../wording/numbers';
import type { Units } from '../wording/units';
import type { SheetData } from './sheet-data';

/** Heaviest first; what says the same of several places, but for its figures, is said once with all its places. */
export function sheetWarnings(warnings: readonly Warning[], units: Units): SheetData['warnings'] {
  const alike = new Map<string, { readonly first: Warning; readonly places: string[] }>();
  for (const warning of [...warnings].sort((a, b) => b.weight - a.weight)) {
    const { weight, code, text, fromM, toM } = warning;
    const words = `${weight} ${code} ${text.replaceAll(/\d+/g, '#')}`;
    const sofar = alike.get(words) ?? { first: warning, places: [] };
    if (fromM !== null) sofar.places.push(stretchText(fromM, toM ?? fromM, units));
    alike.set(words, sofar);
  }
  return [...alike.values()].map(({ first: { weight, text }, places: [place = '', ...others] }) => ({
    weight,
    text,
    place: others.length === 0 ? place : `${place}; likewise ${others.join(', ')}`,
  }));
}
