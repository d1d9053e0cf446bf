import type { Problem } from '../domain/problem';
import { fail, ok, type Result } from '../domain/result';
import { entryOf } from './catalogue';
import type { Entry } from './entry';
import { figureAt, figurePaths, withFigure } from './figure-path';
import { defaultFigures, type Figures } from './figures';

/** The figures with what the user has changed, or the first change that cannot be: unknown, out of range, out of order. */
export function applyFigures(overrides: Readonly<Record<string, number>>): Result<Figures, Problem> {
  let figures = defaultFigures;
  for (const [key, value] of Object.entries(overrides)) {
    const entry = entryOf.get(key);
    if (!entry) return fail(unknownFigure(key));
    if (!(value >= entry.min && value <= entry.max)) return fail(outOfRange(entry, value));
    figures = withFigure(figures, key, value);
  }
  const disorder = firstDisorder(figures);
  return disorder ? fail(disorder) : ok(figures);
}

/** Pairs that only make sense one way round, smaller first. */
const mustNotCross: readonly (readonly [string, string])[] = [
  ['ground.middleFromM', 'ground.coarseFromM'],
  ['rule.deadlyEasesToDeg', 'rule.deadlyEasesFromDeg'],
  ['rule.ropedAlwaysBelowDeg', 'rule.pitchedOnlyFromDeg'],
  ['rule.pitchedOnlyFromDeg', 'rule.noneAboveDeg'],
  ['runOut.gentleMaxMS', 'runOut.injuringMaxMS'],
];

const spreadPairs: readonly (readonly [string, string])[] = figurePaths(defaultFigures)
  .map(([key]) => key)
  .filter((key) => key.endsWith('.mode'))
  .flatMap((key) => {
    const spread = key.slice(0, -'mode'.length);
    return [
      [`${spread}low`, key],
      [key, `${spread}high`],
    ] as const;
  });

function firstDisorder(figures: Figures): Problem | null {
  for (const [smaller, larger] of [...spreadPairs, ...mustNotCross]) {
    if (figureAt(figures, smaller) > figureAt(figures, larger)) return outOfOrder(smaller, larger, figures);
  }
  return null;
}

const words = (key: string): string => entryOf.get(key)!.label;

function shown(value: number, unit: string): string {
  return unit === '' || unit === '°' || unit === '%' ? `${value}${unit}` : `${value} ${unit}`;
}

const unknownFigure = (key: string): Problem => ({
  code: 'FIG-001',
  subject: 'assumptions',
  place: key,
  title: 'There is no assumption of this name',
  remedy: 'Remove it, or write its name as on the assumptions page.',
});

const outOfRange = ({ key, label, min, max, unit }: Entry, value: number): Problem => ({
  code: 'FIG-002',
  subject: 'assumptions',
  place: key,
  title: `${label} is ${shown(value, unit)}, outside ${min} to ${shown(max, unit)}`,
  remedy: 'Enter a value within the range, or reset it.',
});

const outOfOrder = (smaller: string, larger: string, figures: Figures): Problem => ({
  code: 'FIG-003',
  subject: 'assumptions',
  place: smaller,
  title:
    `“${words(smaller)}” (${figureAt(figures, smaller)}) is more than ` +
    `“${words(larger)}” (${figureAt(figures, larger)})`,
  remedy: 'Change one of the two, or reset both.',
});
