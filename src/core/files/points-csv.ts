import type { LngLat } from '../domain/coordinates';
import type { Problem } from '../domain/problem';
import type { Result } from '../domain/result';
import { limits } from './limits';
import { attempt, Refuser } from './refusal';
import { decodeText } from './text';

const plainNumber = /^[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?$/;
const columnsExpected = 'Name the columns lon and lat in the first line.';

/** Positions from a CSV file (RFC 4180) whose first line names a `lon` and a `lat` column; other columns are passed over. */
export function readPointsCsv(bytes: Uint8Array, subject: string): Result<readonly LngLat[], Problem> {
  const decoded = decodeText(bytes, { subject, letters: 'CSV', latin1IfNotUtf8: true });
  if (!decoded.ok) return decoded;
  const refuser = new Refuser(subject, 'CSV');
  return attempt(() => {
    const [head, ...records] = recordsOf(decoded.value.text, refuser);
    const names = (head?.cells ?? []).map((name) => name.trim().toLowerCase());
    const column = (name: string): number => {
      const at = names.indexOf(name);
      if (at < 0)
        refuser.refuse(
          '001',
          'line 1',
          `columns lon and lat expected, found "${shown(names.join(','))}"`,
          columnsExpected,
        );
      if (names.lastIndexOf(name) !== at)
        refuser.refuse('002', 'line 1', `the column ${name} stands twice`, columnsExpected);
      return at;
    };
    const [lonAt, latAt] = [column('lon'), column('lat')];
    if (records.length > limits.points)
      refuser.refuse('034', null, `the file has more than ${limits.points} points`, 'Split it.');
    return records.map(({ cells, line }): LngLat => {
      const number = (at: number, name: string, limit: number): number => {
        const text = (cells[at] ?? '').trim();
        const value = plainNumber.test(text) ? Number(text) : NaN;
        if (Math.abs(value) <= limit) return value;
        const title = `${name} "${shown(text)}" is not a number within ±${limit}`;
        return refuser.refuse('003', `line ${line}`, title, 'Give decimal degrees.');
      };
      return [number(lonAt, 'lon', 180), number(latAt, 'lat', 90)];
    });
  });
}

interface CsvRecord {
  readonly cells: readonly string[];
  /** Line it begins on, from 1. */
  readonly line: number;
}

/** Records by RFC 4180; empty lines are passed over. A quote that does not close, or stands inside a bare cell, is refused. */
function recordsOf(text: string, refuser: Refuser): CsvRecord[] {
  const records: CsvRecord[] = [];
  let cells: string[] = [];
  let [line, startLine, at] = [1, 1, 0];
  const endRecord = () => {
    if (cells.length > 1 || cells[0]?.trim() !== '') records.push({ cells, line: startLine });
    cells = [];
  };
  while (at < text.length) {
    if (cells.length === 0) startLine = line;
    const quoted = /[ \t]*"((?:[^"]|"")*)"[ \t]*(?=,|\r|\n|$)/y;
    const bare = /[^",\r\n]*(?=,|\r|\n|$)/y;
    quoted.lastIndex = bare.lastIndex = at;
    const inQuotes = quoted.exec(text);
    const cell = inQuotes ?? bare.exec(text);
    if (cell === null)
      refuser.refuse(
        '004',
        `line ${line}`,
        'a quote stands where none can',
        'Write quotes inside a text twice.',
      );
    cells.push(inQuotes ? inQuotes[1]!.replaceAll('""', '"') : cell[0]);
    line += cell[0].match(/\r\n|\r|\n/g)?.length ?? 0;
    at += cell[0].length;
    if (text[at] === ',') {
      at += 1;
      if (at === text.length) cells.push('');
      continue;
    }
    endRecord();
    at += text.startsWith('\r\n', at) ? 2 : 1;
    line += 1;
  }
  if (cells.length > 0) endRecord();
  return records;
}

const shown = (text: string): string => text.slice(0, 40);
