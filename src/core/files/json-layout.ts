const lineChars = 100;

/** JSON for people and for version control: two spaces, and whatever fits in one line stays in one. Ends with a line feed. */
export function layOutJson(value: unknown): string {
  return `${layOut(value, '')}\n`;
}

function layOut(value: unknown, indent: string): string {
  if (typeof value !== 'object' || value === null) return scalar(value);
  const inOneLine = oneLine(value, lineChars - indent.length);
  if (inOneLine !== null) return inOneLine;
  const inner = `${indent}  `;
  const [open, close] = Array.isArray(value) ? '[]' : '{}';
  const items = Array.isArray(value)
    ? value.map((item) => layOut(item, inner))
    : keysOf(value).map((key) => `${JSON.stringify(key)}: ${layOut(itemOf(value, key), inner)}`);
  return `${open}\n${items.map((item) => inner + item).join(',\n')}\n${indent}${close}`;
}

function scalar(value: unknown): string {
  if (typeof value !== 'number') return JSON.stringify(value);
  if (!Number.isFinite(value)) throw new Error('a number that is not finite cannot be written');
  return String(value);
}

/** null: longer than so many characters. Given up as soon as that shows, or every level would write all that is below it. */
function oneLine(value: unknown, chars: number): string | null {
  if (typeof value !== 'object' || value === null) return within(scalar(value), chars);
  if (Array.isArray(value)) {
    let text = '[';
    for (const item of value) {
      const next = oneLine(item, chars - text.length - 1);
      if (next === null) return null;
      text += text === '[' ? next : `, ${next}`;
    }
    return within(`${text}]`, chars);
  }
  let text = '{ ';
  for (const key of keysOf(value)) {
    text += `${text === '{ ' ? '' : ', '}${JSON.stringify(key)}: `;
    const next = oneLine(itemOf(value, key), chars - text.length - 2);
    if (next === null) return null;
    text += next;
  }
  return within(text === '{ ' ? '{}' : `${text} }`, chars);
}

const within = (text: string, chars: number): string | null => (text.length > chars ? null : text);

const itemOf = (value: object, key: string): unknown => (value as Record<string, unknown>)[key];

const keysOf = (value: object): string[] =>
  Object.keys(value).filter((key) => itemOf(value, key) !== undefined);
