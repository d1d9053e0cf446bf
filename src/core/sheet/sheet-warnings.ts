import type { Plan, Warning } from '../domain/segment';
import { stretchText } from '../wording/numbers';
import type { Units } from '../wording/units';
import type { SheetWarning } from './sheet-data';

/** Said by the cautions and in the crossings' rows on the same sheet, in other words. */
const saidElsewhere = new Set(['crevasse-falls', 'device-limit', 'crossing']);

interface Alike {
  readonly first: Warning;
  /** Along the way there, and along the way back. */
  readonly there: string[];
  readonly back: string[];
}

/** Heaviest first; what says the same of several places, but for its figures, is said once with all its places. */
export function sheetWarnings(
  { warnings, wayBack }: Pick<Plan, 'warnings'> & { readonly wayBack: Pick<Plan, 'warnings'> | null },
  units: Units,
): SheetWarning[] {
  const alike = new Map<string, Alike>();
  const take = (warning: Warning, way: 'there' | 'back') => {
    const { weight, code, text, fromM, toM } = warning;
    const words = `${weight} ${code} ${text.replaceAll(/\d+/g, '#')}`;
    const sofar = alike.get(words) ?? { first: warning, there: [], back: [] };
    if (fromM !== null) sofar[way].push(stretchText(fromM, toM ?? fromM, units));
    alike.set(words, sofar);
  };
  for (const warning of warnings) take(warning, 'there');
  for (const warning of wayBack?.warnings ?? []) take(warning, 'back');
  return [...alike.values()]
    .sort((a, b) => b.first.weight - a.first.weight)
    .map(({ first: { weight, code, text }, there, back }) => ({
      weight,
      text,
      place: [someOf(there), back.length === 0 ? '' : `back ${someOf(back)}`]
        .filter((words) => words !== '')
        .join('; '),
      isFront: weight === 3 || (weight === 2 && !saidElsewhere.has(code)),
    }));
}

const mostPlaces = 3;

/** A long list of places would bury what is said of them. */
const someOf = (places: readonly string[]): string => {
  const more = places.length - mostPlaces;
  return more <= 1 ? places.join(', ') : `${places.slice(0, mostPlaces).join(', ')} and ${more} more`;
};
