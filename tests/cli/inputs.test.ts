import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { readArguments } from '../../src/cli/arguments';
import { lineOptions, paintedElsewhere, readLine } from '../../src/cli/inputs';
import { projectOf } from '../core/plan/invented';

const place = mkdtempSync(join(tmpdir(), 'firnward-inputs-'));
afterAll(() => rmSync(place, { recursive: true, force: true }));

const points = (lat: number) =>
  [7, 7.001].map((lng) => ({ position: [lng, lat] as const, elevationM: null, timeMs: null }));
const lineAt = (lat: number) => ({ id: 'line', name: 'to the col', points: points(lat) });

test('a line taken out of a project says that team, marks and painted stretches stay behind; where no line is named it is the project’s', async () => {
  const file = join(place, 'day.firnward.json');
  const line = { points: points(46).map(({ position }) => position) };
  writeFileSync(file, JSON.stringify({ format: 'firnward-project', version: 1, line }));
  const read = (words: readonly string[]) =>
    readLine(readArguments(words, { ...lineOptions, project: { type: 'string' } }));
  const [note] = (await read(['--line', file])).notes;
  expect(note).toMatchObject({ code: 'IN-006', subject: 'day.firnward.json' });
  expect(note!.text).toContain('--project');
  const both = await read(['--line', file, '--project', file]);
  expect(both.notes).toEqual([]);
  expect(await read(['--project', file])).toEqual(both);
  await expect(read([])).rejects.toThrow('--line is missing');
});

test('stretches painted on the project’s own line are named where another line is planned', () => {
  const stretch = {
    way: 'both' as const,
    fromM: 0,
    toM: 50,
    mode: null,
    snow: null,
    runOut: null,
    note: 'here',
    id: 'o',
  };
  const painted = projectOf({ line: lineAt(46), overrides: [stretch] });
  expect(paintedElsewhere(painted, lineAt(46.001)).map(({ code }) => code)).toEqual(['IN-007']);
  expect(paintedElsewhere(painted, lineAt(46))).toEqual([]);
  expect(paintedElsewhere(projectOf({ line: lineAt(46) }), lineAt(46.001))).toEqual([]);
  const draft = { ...painted, line: { ...lineAt(46), points: [] } };
  expect(paintedElsewhere(draft, lineAt(46.001))).toEqual([]);
});
