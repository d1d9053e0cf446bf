import { basename } from 'node:path';
import type { LngLat } from '../core/domain/coordinates';
import { ProblemError } from '../core/domain/raster';
import { readWhole } from './inputs';

const plainNumber = /^[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?$/;

/** Positions from a CSV file whose first line names a `lon` and a `lat` column; other columns are passed over. */
export async function readPoints(file: string): Promise<LngLat[]> {
  const subject = basename(file);
  const refuse = (place: string | null, title: string, remedy: string): never => {
    throw new ProblemError({ code: 'CSV-001', subject, place, title, remedy });
  };
  const lines = new TextDecoder().decode(await readWhole(file)).split(/\r\n|\n|\r/);
  const names = (lines[0] ?? '').split(',').map((name) =>
    name
      .trim()
      .replace(/^"(.*)"$/, '$1')
      .toLowerCase(),
  );
  const lonAt = names.indexOf('lon');
  const latAt = names.indexOf('lat');
  if (lonAt < 0 || latAt < 0)
    return refuse(
      'line 1',
      `columns lon and lat expected, found "${lines[0] ?? ''}"`,
      'Name them in the first line.',
    );

  const points: LngLat[] = [];
  for (const [i, line] of lines.entries()) {
    if (i === 0 || line.trim() === '') continue;
    const cells = line.split(',').map((cell) => cell.trim().replace(/^"(.*)"$/, '$1'));
    const number = (at: number, name: string, limit: number) => {
      const text = cells[at] ?? '';
      const value = plainNumber.test(text) ? Number(text) : NaN;
      return Math.abs(value) <= limit
        ? value
        : refuse(
            `line ${i + 1}`,
            `${name} "${text}" is not a number within ±${limit}`,
            'Give decimal degrees.',
          );
    };
    points.push([number(lonAt, 'lon', 180), number(latAt, 'lat', 90)]);
  }
  return points;
}
