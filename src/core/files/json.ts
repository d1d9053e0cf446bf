import type { Problem } from '../domain/problem';
import { fail, ok, type Result } from '../domain/result';
import { limits } from './limits';

export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

/** Stable endings of problem codes, after the format's own letters (PRJ-001, GEO-001 ...). */
const codes = { syntax: '001', number: '007', key: '008', duplicate: '009', limit: '010' } as const;

class Stop extends Error {
  constructor(
    readonly code: keyof typeof codes,
    readonly offset: number,
    title: string,
  ) {
    super(title);
  }
}

/**
 * JSON by RFC 8259, and stricter where other readers guess: a key twice in one object, numbers that a double cannot hold,
 * the keys `__proto__` and `constructor`, nesting over 32 and texts over 50 MB are refused, each with its line and column.
 */
export function readJson(
  text: string,
  subject: string,
  codeLetters: string,
  remedy: string,
): Result<Json, Problem> {
  const refuse = (code: keyof typeof codes, offset: number, title: string) =>
    fail<Problem>({
      code: `${codeLetters}-${codes[code]}`,
      subject,
      place: lineAndColumn(text, offset),
      title,
      remedy,
    });
  if (text.length > limits.textBytes)
    return refuse('limit', 0, `the file holds over ${limits.textBytes / 2 ** 20} MB of text`);
  try {
    return ok(new JsonReader(text).document());
  } catch (stop) {
    if (!(stop instanceof Stop)) throw stop;
    return refuse(stop.code, stop.offset, stop.message);
  }
}

export function lineAndColumn(text: string, offset: number): string {
  const before = text.slice(0, offset);
  const line = before.split('\n').length;
  return `line ${line}, column ${offset - before.lastIndexOf('\n')}`;
}

const numberGrammar = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const literals: readonly (readonly [string, Json])[] = [
  ['true', true],
  ['false', false],
  ['null', null],
];

class JsonReader {
  private at = 0;

  constructor(private readonly text: string) {}

  document(): Json {
    const value = this.value(0);
    this.skipSpace();
    if (this.at < this.text.length) throw this.unexpected('the end of the file');
    return value;
  }

  private value(depth: number): Json {
    this.skipSpace();
    if (depth > limits.depth)
      throw new Stop('limit', this.at, `brackets stand more than ${limits.depth} deep`);
    const next = this.text[this.at];
    if (next === '{') return this.object(depth);
    if (next === '[') return this.array(depth);
    if (next === '"') return this.string();
    for (const [word, value] of literals)
      if (this.text.startsWith(word, this.at)) {
        this.at += word.length;
        return value;
      }
    return this.number();
  }

  private object(depth: number): Json {
    const entries: Record<string, Json> = {};
    const seen = new Set<string>();
    this.list('}', () => {
      this.skipSpace();
      const start = this.at;
      if (this.text[start] !== '"') throw this.unexpected('a key in quotes');
      const key = this.string();
      if (key === '__proto__' || key === 'constructor')
        throw new Stop('key', start, `the key "${key}" is not allowed`);
      if (seen.has(key)) throw new Stop('duplicate', start, `the key "${key}" stands twice in one object`);
      seen.add(key);
      this.skipSpace();
      if (this.text[this.at] !== ':') throw this.unexpected('a colon');
      this.at += 1;
      entries[key] = this.value(depth + 1);
    });
    return entries;
  }

  private array(depth: number): Json {
    const values: Json[] = [];
    this.list(']', () => values.push(this.value(depth + 1)));
    return values;
  }

  private list(closing: string, item: () => void): void {
    this.at += 1;
    this.skipSpace();
    if (this.text[this.at] === closing) {
      this.at += 1;
      return;
    }
    for (;;) {
      item();
      this.skipSpace();
      const next = this.text[this.at];
      if (next !== ',' && next !== closing) throw this.unexpected(`a comma or "${closing}"`);
      this.at += 1;
      if (next === closing) return;
    }
  }

  private string(): string {
    const start = this.at;
    let escaped = false;
    for (let i = start + 1; i < this.text.length; i++) {
      const code = this.text.charCodeAt(i);
      if (code === 0x22) {
        this.at = i + 1;
        return escaped ? this.unescape(start, i + 1) : this.text.slice(start + 1, i);
      }
      if (code < 0x20) throw new Stop('syntax', i, 'a control character stands inside a text');
      if (code === 0x5c) {
        escaped = true;
        i += 1;
      }
    }
    this.at = this.text.length;
    throw this.unexpected('the end of a text in quotes');
  }

  private unescape(start: number, end: number): string {
    try {
      return JSON.parse(this.text.slice(start, end)) as string;
    } catch {
      throw new Stop('syntax', start, 'a text holds an escape that JSON does not know');
    }
  }

  private number(): number {
    numberGrammar.lastIndex = this.at;
    const match = numberGrammar.exec(this.text)?.[0];
    if (match === undefined) throw this.unexpected('a value');
    const value = Number(match);
    const lost = Number.isInteger(value) && !Number.isSafeInteger(value);
    if (!Number.isFinite(value) || lost || match.length > limits.numberChars)
      throw new Stop('number', this.at, `the number ${match.slice(0, 40)} cannot be kept exactly`);
    this.at += match.length;
    return value;
  }

  private skipSpace(): void {
    for (;;) {
      const code = this.text.charCodeAt(this.at);
      if (code !== 0x20 && code !== 0x0a && code !== 0x0d && code !== 0x09) return;
      this.at += 1;
    }
  }

  private unexpected(expected: string): Stop {
    const found = this.text[this.at];
    return found === undefined
      ? new Stop('syntax', this.at, `the file is cut off: it ends where ${expected} should stand`)
      : new Stop('syntax', this.at, `found ${JSON.stringify(found)} where ${expected} should stand`);
  }
}
