/** One figure of the model, as the user sees it: what it is, between which limits it may be set, where it comes from. */
export interface Entry {
  /** Path in `Figures`, dotted. */
  readonly key: string;
  readonly group: string;
  readonly label: string;
  /** Empty for a share, a factor or a plain number. */
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  readonly default: number;
  /** The published source, or `judgement`, or `common practice`. */
  readonly source: string;
}

/** An entry whose default is still to be looked up. */
export type Draft = Omit<Entry, 'default'>;

/** What entries side by side have in common. */
export type Traits = Omit<Draft, 'key' | 'label'>;

const spreadWords = { low: 'least', mode: 'most likely', high: 'most' } as const;

/** Words for times and speeds, which are shown as a range about a default. */
export const rangeWords = { low: 'low', mode: 'default', high: 'high' } as const;

/** The three figures of a spread. */
export function spreadDrafts(
  key: string,
  label: string,
  traits: Traits,
  words: Readonly<Record<'low' | 'mode' | 'high', string>> = spreadWords,
): Draft[] {
  return Object.entries(words).map(([end, word]) => ({
    ...traits,
    key: `${key}.${end}`,
    label: `${label}: ${word}`,
  }));
}
