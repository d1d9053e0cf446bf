import { parseArgs, type ParseArgsConfig } from 'node:util';

/** The call was put wrongly: exit 2. */
export class UsageError extends Error {}

type Options = NonNullable<ParseArgsConfig['options']>;

/** Options that every verb takes. */
const everyVerb = {
  json: { type: 'boolean' },
  out: { type: 'string' },
  help: { type: 'boolean', short: 'h' },
} as const satisfies Options;

export interface Arguments {
  readonly text: (name: string) => string | null;
  /** Every value of an option that repeats or takes several. */
  readonly texts: (name: string) => readonly string[];
  readonly flag: (name: string) => boolean;
  readonly number: (name: string, range: { min: number; max: number }) => number | null;
}

/**
 * Strict: unknown options, missing values and stray words are usage errors. Options in `several` also take the words that
 * follow them: `--elevation a.tif b.tif`.
 */
export function readArguments(
  words: readonly string[],
  options: Options,
  several: readonly string[] = [],
): Arguments {
  let values: Record<string, unknown>;
  try {
    ({ values } = parseArgs({
      args: spread(words, several),
      options: { ...everyVerb, ...options },
      strict: true,
      allowPositionals: false,
    }));
  } catch (error) {
    throw new UsageError((error as Error).message);
  }
  const text = (name: string) => {
    const value = values[name];
    return typeof value === 'string' ? value : null;
  };
  return {
    text,
    texts: (name) => (Array.isArray(values[name]) ? (values[name] as string[]) : []),
    flag: (name) => values[name] === true,
    number: (name, { min, max }) => {
      const value = text(name);
      if (value === null) return null;
      const number = /^[+-]?(\d+(\.\d*)?|\.\d+)$/.test(value) ? Number(value) : NaN;
      if (!(number >= min && number <= max))
        throw new UsageError(`--${name} takes a number from ${min} to ${max}; found "${value}"`);
      return number;
    },
  };
}

/** `--elevation a b` becomes `--elevation a --elevation b`. */
function spread(words: readonly string[], several: readonly string[]): string[] {
  const out: string[] = [];
  let current: string | null = null;
  for (const word of words) {
    if (word.startsWith('--')) {
      const name = word.slice(2).split('=')[0] ?? '';
      current = several.includes(name) ? name : null;
      out.push(word);
    } else if (current !== null && out.at(-1) !== `--${current}`) {
      out.push(`--${current}`, word);
    } else {
      out.push(word);
    }
  }
  return out;
}
