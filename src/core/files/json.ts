import { limits } from './limits';
import type { Refuser } from './refusal';

export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

/** Stable endings of problem codes, after the format's own letters (PRJ-001, GEO-001 ...). */
const codes = { syntax: '001', number: '007', key: '008', duplicate: '009', limit: '010' } as const;

/**
 * JSON by RFC 8259, and stricter where other readers guess: a key twice in one object, numbers that a double cannot hold,
 * the keys `__proto__` and `constructor`, nesting over 32 and texts over 50 MB are refused, each with its line and column.
 * Throws a Refusal.
 */
export function readJson(text: string, refuser: Refuser, remedy: string): Json {
  return new JsonReader(text, (code, offset, title) =>
    refuser.refuse(codes[code], lineAndColumn(text, offset), title, remedy),
  ).document();
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

  constructor(
    private readonly text: string,
    private readonly refuse: (code: keyof typeof codes, offset: number, title: string) => never,
  ) {}

  document(): Json {
    if (this.text.length > limits.textBytes)
      this.refuse('limit', 0, `the file holds over ${limits.textBytes / 2 ** 20} MB of text`);
    const value = this.value(0);
    this.skipSpace();
    if (this.at < this.text.length) this.unexpected('the end of the file');
    return value;
  }

  private value(depth: number): Json {
    this.skipSpace();
    if (depth > limits.depth) this.refuse('limit', this.at, `brackets stand more than ${limits.depth} deep`);
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
      if (this.text[start] !== '"') this.unexpected('a key in quotes');
      const key = this.string();
      if (key === '__proto__' || key === 'constructor')
        this.refuse('key', start, `the key "${key}" is not allowed`);
      if (seen.has(key)) this.refuse('duplicate', start, `the key "${key}" stands twice in one object`);
      seen.add(key);
      this.skipSpace();
      if (this.text[this.at] !== ':') this.unexpected('a colon');
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
      if (next !== ',' && next !== closing) this.unexpected(`a comma or "${closing}"`);
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
      if (code < 0x20) this.refuse('syntax', i, 'a control character stands inside a text');
      if (code === 0x5c) {
        escaped = true;
        i += 1;
      }
    }
    this.at = this.text.length;
    this.unexpected('the end of a text in quotes');
  }

  private unescape(start: number, end: number): string {
    try {
      return JSON.parse(this.text.slice(start, end)) as string;
    } catch {
      this.refuse('syntax', start, 'a text holds an escape that JSON does not know');
    }
  }

  private number(): number {
    numberGrammar.lastIndex = this.at;
    const match = numberGrammar.exec(this.text)?.[0];
    if (match === undefined) this.unexpected('a value');
    const value = Number(match);
    const lost = Number.isInteger(value) && !Number.isSafeInteger(value);
    if (!Number.isFinite(value) || lost || match.length > limits.numberChars)
      this.refuse('number', this.at, `the number ${match.slice(0, 40)} cannot be kept exactly`);
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

  private unexpected(expected: string): never {
    const found = this.text[this.at];
    const title =
      found === undefined
        ? `the file is cut off: it ends where ${expected} should stand`
        : `found ${JSON.stringify(found)} where ${expected} should stand`;
    return this.refuse('syntax', this.at, title);
  }
}
