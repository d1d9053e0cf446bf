const lineChars = 100;

/** JSON for people and for version control: two spaces, and whatever fits in one line stays in one. Ends with a line feed. */
export function layOutJson(value: unknown): string {
  return `${layOut(value, '')}\n`;
}

function layOut(value: unknown, indent: string): string {
  const inOneLine = oneLine(value);
  if (inOneLine.length + indent.length <= lineChars || typeof value !== 'object' || value === null)
    return inOneLine;
  const inner = `${indent}  `;
  const [open, close] = Array.isArray(value) ? '[]' : '{}';
  const items = Array.isArray(value)
    ? value.map((item) => layOut(item, inner))
    : entriesOf(value).map(([key, item]) => `${JSON.stringify(key)}: ${layOut(item, inner)}`);
  return `${open}\n${items.map((item) => inner + item).join(',\n')}\n${indent}${close}`;
}

function oneLine(value: unknown): string {
  if (typeof value === 'number' && !Number.isFinite(value))
    throw new Error('a number that is not finite cannot be written');
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map(oneLine).join(', ')}]`;
  const entries = entriesOf(value).map(([key, item]) => `${JSON.stringify(key)}: ${oneLine(item)}`);
  return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`;
}

const entriesOf = (value: object): [string, unknown][] =>
  Object.entries(value).filter(([, item]) => item !== undefined);
