import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Track, TrackFile } from '../../../src/core/domain/track';
import { readTrackFile } from '../../../src/core/files/track-file';
import { trackLengthM } from '../../../src/core/files/track-notes';
import { distanceM } from '../../../src/core/line/geodesic';

const data = process.env['FIRNWARD_DATA'] ?? '/nowhere';
const isThere = existsSync(join(data, 'gpx'));

/** What the data folder's own list, made with other programs, says of each file. */
interface Listed {
  readonly name: string;
  /** tracks/segments/points, routes/points, waypoints */
  readonly counts: string;
  readonly withElevation: number;
  readonly range: string;
  readonly withTime: number;
  readonly lengthKm: string;
}

function listed(): Listed[] {
  if (!isThere) return [];
  const rows = readFileSync(join(data, 'README.md'), 'utf8').split('\n');
  return rows.flatMap((row) => {
    const cells = row.split('|').map((cell) => cell.trim());
    const [, name = '', , , counts = '', elevation = '', time = '', lengthKm = ''] = cells;
    if (!name.endsWith('.gpx') || cells.length !== 9) return [];
    const [withElevation = '', range = ''] = elevation.split(': ');
    return [
      {
        name,
        counts,
        withElevation: withElevation === 'none' ? 0 : Number(withElevation),
        range,
        withTime: Number(time.split('/')[0]),
        lengthKm,
      },
    ];
  });
}

const read = (name: string) => readTrackFile(readFileSync(join(data, 'gpx', name)), name);

function opened(name: string): TrackFile {
  const result = read(name);
  if (!result.ok) throw new Error(`${result.problem.code} ${result.problem.title}`);
  return result.value;
}

const pointsOf = (tracks: readonly Track[]) => tracks.flatMap(({ parts }) => parts.flat());

/** Left out with a note: tracks and segments without a point. */
const emptyOnes = (file: TrackFile): boolean => file.notes.some(({ text }) => text.includes('empty segment'));

describe.skipIf(!isThere)('every recorded file of the data folder (its README counts them)', () => {
  const rows = listed();

  test('is listed', () => {
    expect(rows.length).toBeGreaterThan(35);
  });

  test.each(rows.filter(({ counts }) => counts !== '-'))('$name', (row) => {
    const file = opened(row.name);
    const [tracks, routes, waypoints] = row.counts.split(', ').map((part) => part.split('/').map(Number));
    const own = file.tracks.filter(({ kind }) => kind === 'track');
    const ownRoutes = file.tracks.filter(({ kind }) => kind === 'route');
    const points = pointsOf(own);
    expect(points).toHaveLength(tracks?.[2] ?? -1);
    expect(pointsOf(ownRoutes)).toHaveLength(routes?.[1] ?? -1);
    expect(file.waypoints).toHaveLength(waypoints?.[0] ?? -1);
    if (!emptyOnes(file)) {
      expect(own).toHaveLength(tracks?.[0] ?? -1);
      expect(own.flatMap(({ parts }) => parts)).toHaveLength(tracks?.[1] ?? -1);
      expect(ownRoutes).toHaveLength(routes?.[0] ?? -1);
    }

    const heights = [...points, ...pointsOf(ownRoutes), ...file.waypoints].flatMap(({ elevationM }) =>
      elevationM === null ? [] : [elevationM],
    );
    expect(heights).toHaveLength(row.withElevation);
    if (heights.length > 0)
      expect(row.range).toBe(
        `${Math.min(...heights).toFixed(0)}..${Math.max(...heights).toFixed(0)}`.replace(
          /^0\.\./,
          row.range.startsWith('-0') ? '-0..' : '0..',
        ),
      );
    // The list counts waypoints' times too.
    const timed = [...points, ...pointsOf(ownRoutes)].filter(({ timeMs }) => timeMs !== null).length;
    expect(timed).toBeLessThanOrEqual(row.withTime);
    expect(timed).toBeGreaterThanOrEqual(row.withTime - file.waypoints.length);
  });

  /** The list's lengths count tracks and routes by another formula; a twentieth of a kilometre is its rounding. */
  test.each(rows.filter(({ lengthKm }) => /^\d/.test(lengthKm)))('$name is $lengthKm km long', (row) => {
    const lengthM = opened(row.name).tracks.reduce((sum, track) => sum + trackLengthM(track), 0);
    expect(Math.abs(lengthM / 1000 - Number(row.lengthKm))).toBeLessThan(0.05 + 0.005 * Number(row.lengthKm));
  });

  test('a file with an undeclared prefix is refused by its place', () => {
    const result = read('route_and_track_same_line.gpx');
    expect(!result.ok && result.problem).toMatchObject({ code: 'GPX-039', place: 'line 56, column 31' });
  });

  test('the same track in UTF-16 is the same track', () => {
    const [utf8, utf16] = [opened('mojstrovka_alpine.gpx'), opened('mojstrovka_utf16le_bom.gpx')];
    expect(utf16.tracks).toEqual(utf8.tracks);
  });

  test('a file that says it is Latin-1 is read as such, and says so', () => {
    const { notes, waypoints } = opened('iso8859_1.gpx');
    expect(notes.map(({ code }) => code)).toContain('GPX-014');
    expect(waypoints.map(({ note }) => note).join(' ')).not.toContain('\ufffd');
  });

  test('an elevation of 0 is 0, a missing one unknown', () => {
    const heights = pointsOf(opened('zero_elevation_first.gpx').tracks).map(({ elevationM }) => elevationM);
    expect(heights).toContain(0);
    expect(heights).not.toContain(null);
    expect(pointsOf(opened('cerknica_no_elevation.gpx').tracks)[0]?.elevationM).toBeNull();
  });

  test('fractions of seconds are kept', () => {
    const times = pointsOf(opened('subsecond_times.gpx').tracks).map(({ timeMs }) => (timeMs ?? 0) % 1000);
    expect(times.some((ms) => ms !== 0)).toBe(true);
  });

  test('longitude first or latitude first is the same', () => {
    const [first, last] = [0, -1].map(
      (i) => pointsOf(opened('lon_before_lat.gpx').tracks).at(i)?.position ?? [0, 0],
    );
    expect(distanceM(first as never, last as never)).toBeLessThan(5000);
  });
});
