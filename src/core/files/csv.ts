import { fixed } from './number-text';

declare const written: unique symbol;

/** A cell as it stands in the file: made by `text` or `number` only. Nothing is written for the unknown. */
export type CsvCell = string & { readonly [written]: true };

export const number = (value: number | null | undefined, places: number): CsvCell =>
  (value === null || value === undefined || Number.isNaN(value) ? '' : fixed(value, places)) as CsvCell;

const formulaStart = /^[=+\-@\t\r\n\0＝＋－＠]/;

/** Text that a spreadsheet would take for a formula gets an apostrophe before it (CWE-1236); numbers keep their minus signs. */
export function text(value: string | null): CsvCell {
  if (value === null) return '' as CsvCell;
  const harmless = formulaStart.test(value) ? `'${value}` : value;
  return (/[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless) as CsvCell;
}

/** A record for each row by RFC 4180: CRLF after each, cells with a comma, quote or line break in quotes. */
export function csv<Row>(
  header: readonly string[],
  rows: readonly Row[],
  cellsOf: (row: Row, index: number) => readonly CsvCell[],
): string {
  const records = rows.map((row, index) => {
    const cells = cellsOf(row, index);
    if (cells.length !== header.length)
      throw new Error('a CSV record has another number of cells than its header');
    return record(cells);
  });
  return record(header.map(text)) + records.join('');
}

const record = (cells: readonly CsvCell[]): string => `${cells.join(',')}\r\n`;
