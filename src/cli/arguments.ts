import { parseArgs, type ParseArgsConfig } from 'node:util';
import { nearestWord } from './nearest-word';

/** The call was put wrongly: exit 2. */
export class UsageError extends Error {}

type Options = NonNullable<ParseArgsConfig['options']>;

/** Options that every verb takes. */
const everyVerb = {
  json: { type: 'boolean' },
  out: { type: 'string' },
  force: { type: 'boolean' },
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
  const all: Options = { ...everyVerb, ...options };
  const args = spread(words, several);
  refuseUnknownAndTwice(args, all);
  let values: Record<string, unknown>;
  try {
    ({ values } = parseArgs({ args, options: all, strict: true, allowPositionals: false }));
  } catch (error) {
    throw new UsageError((error as Error).message.replaceAll(/\s*\n\s*/g, ' '));
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

/** Of an option that is given twice the last would win, and the order of options would matter. */
function refuseUnknownAndTwice(args: readonly string[], options: Options): void {
  const { tokens } = parseArgs({ args: [...args], options, strict: false, tokens: true });
  const seen = new Set<string>();
  for (const token of tokens) {
    if (token.kind !== 'option') continue;
    const { name } = token;
    if (!Object.hasOwn(options, name)) {
      const near = nearestWord(name, Object.keys(options));
      throw new UsageError(`there is no ${token.rawName}${near === null ? '' : `; did you mean --${near}?`}`);
    }
    if (seen.has(name) && options[name]?.multiple !== true) throw new UsageError(`--${name} is given twice`);
    seen.add(name);
  }
}

/** `--elevation a b` becomes `--elevation a --elevation b`, and `--slope -1` becomes `--slope=-1`, which is a value. */
function spread(words: readonly string[], several: readonly string[]): string[] {
  const out: string[] = [];
  let current: string | null = null;
  for (const word of words) {
    if (word.startsWith('--')) {
      const name = word.slice(2).split('=')[0] ?? '';
      current = several.includes(name) ? name : null;
      out.push(word);
    } else if (/^-[\d.]/.test(word) && out.at(-1)?.startsWith('--') === true) {
      out.push(`${out.pop()}=${word}`);
    } else if (current !== null && out.at(-1) !== `--${current}`) {
      out.push(`--${current}`, word);
    } else {
      out.push(word);
    }
  }
  return out;
}
