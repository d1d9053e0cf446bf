import type * as zod from 'zod/mini';

type Fault = zod.core.$ZodRawIssue;

/** What stands in a file instead of what should, short enough for a message. */
function found(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (Array.isArray(value)) return 'a list';
  if (value !== null && typeof value === 'object') return 'an object';
  const text = JSON.stringify(value);
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}

const kindNames: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  tuple: 'a list',
  object: 'an object',
  record: 'an object',
};

/** The wording of a number out of its range, or none at all. */
export const numberFault =
  (noun: 'number' | 'whole number', min: number, max: number) =>
  ({ input }: Fault): string =>
    `a ${noun} from ${min} to ${max} expected; found ${found(input)}`;

/** What a schema found wrong, where it has no wording of its own: expected and found. */
export function schemaFault(fault: Fault): string {
  switch (fault.code) {
    case 'invalid_type':
      return `${kindNames[fault.expected] ?? fault.expected} expected; found ${found(fault.input)}`;
    case 'invalid_value':
      return `${fault.values.length > 1 ? 'one of ' : ''}${fault.values.map(found).join(', ')} expected; found ${found(fault.input)}`;
    case 'too_big':
      return `longer than ${String(fault.maximum)} ${fault.origin === 'string' ? 'characters' : 'entries'}`;
    case 'too_small':
      return 'empty, where something is expected';
    case 'invalid_key':
      return 'a name that is longer than any that is known here';
    default:
      return `of no shape that is known here; found ${found(fault.input)}`;
  }
}
