import { fixed } from './number-text';

/** A cell: text, a number with its decimals, or null for the unknown, which is written as nothing. */
export type CsvCell = string | null | { readonly value: number | null; readonly places: number };

export const number = (value: number | null | undefined, places: number): CsvCell => ({
  value: value === undefined || Number.isNaN(value) ? null : value,
  places,
});

/**
 * Records by RFC 4180: CRLF after each, cells with a comma, quote or line break in quotes. Text that a spreadsheet would
 * take for a formula gets an apostrophe before it (CWE-1236); numbers stay numbers, minus signs too.
 */
export function csv(header: readonly string[], rows: Iterable<readonly CsvCell[]>): string {
  const records = [record(header)];
  for (const row of rows) {
    if (row.length !== header.length)
      throw new Error('a CSV record has another number of cells than its header');
    records.push(record(row));
  }
  return records.join('');
}

const record = (cells: readonly CsvCell[]): string => `${cells.map(cell).join(',')}\r\n`;

function cell(value: CsvCell): string {
  if (value === null) return '';
  if (typeof value === 'string') return textCell(value);
  return value.value === null ? '' : fixed(value.value, value.places);
}

const formulaStart = /^[=+\-@\t\r\n\0＝＋－＠]/;

function textCell(text: string): string {
  const harmless = formulaStart.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}
