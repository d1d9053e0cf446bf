import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readArguments } from '../../src/cli/arguments';
import { lineOptions, readLine, stepOf } from '../../src/cli/inputs';
import { ProblemError } from '../../src/core/domain/raster';
import { builtCommandLine, firnward } from './built-cli';

const place = mkdtempSync(join(tmpdir(), 'firnward-questions-'));
const terrain = 'public/demo/ombry-terrain.tif';
beforeAll(async () => void (await builtCommandLine()), 120_000);
afterAll(() => rmSync(place, { recursive: true, force: true }));

const gpx = (name: string, ...parts: readonly (readonly (readonly [lng: number, lat: number])[])[]) => {
  const file = join(place, name);
  const points = (part: (typeof parts)[number]) =>
    part.map(([lng, lat]) => `<trkpt lat="${lat}" lon="${lng}"/>`).join('');
  const segments = parts.map((part) => `<trkseg>${points(part)}</trkseg>`).join('');
  writeFileSync(
    file,
    `<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1"><trk>${segments}</trk></gpx>`,
  );
  return file;
};

const read = (words: readonly string[]) => readLine(readArguments(words, lineOptions));
const asked = async (words: readonly string[]) => {
  const reason = await read(words).then(
    () => null,
    (thrown: unknown) => thrown,
  );
  return reason instanceof ProblemError ? reason.problem : reason;
};

describe('what only the user knows of a line is asked, and answered by --answer', () => {
  test('G17 a gap of over a kilometre is not crossed in silence', async () => {
    const file = gpx('gap.gpx', [[7, 46], [7.001, 46]], [[7.02, 46], [7.021, 46]]); // prettier-ignore
    expect(await asked(['--line', file])).toMatchObject({ code: 'GPX-017', kept: 'Nothing was written.' });
    const crossed = await read(['--line', file, '--answer', 'GPX-017=cross']);
    expect(crossed.positions).toHaveLength(4);
    expect(crossed.notes.map(({ text }) => text)).toContain(
      'a gap of 1472 m before point 3 was crossed by a straight line',
    );
    const second = await read(['--line', file, '--answer', 'GPX-017=2']);
    expect(second.positions).toEqual([[7.02, 46], [7.021, 46]]); // prettier-ignore
  });

  test('G23, G25, G27 each says the answers it takes', async () => {
    const beyond = gpx('beyond.gpx', [[200, 46], [200.001, 46]]); // prettier-ignore
    expect(await asked(['--line', beyond])).toMatchObject({ code: 'GPX-023' });
    expect((await read(['--line', beyond, '--answer', 'GPX-023=yes'])).positions[0]).toEqual([-160, 46]);
    const noFix = gpx('no-fix.gpx', [[7, 46], [0, 0], [7.001, 46]]); // prettier-ignore
    const left = await firnward(['ground', '--elevation', terrain, '--line', noFix]);
    expect(left.code).toBe(3);
    expect(left.err).toContain('Answer with --answer GPX-025=drop (Drop them) or --answer GPX-025=keep');
    expect((await read(['--line', noFix, '--answer', 'GPX-025=drop'])).positions).toHaveLength(2);
    // Kept, the same points are a jump: two questions, two answers.
    const kept = ['--line', noFix, '--answer', 'GPX-025=keep'];
    expect(await asked(kept)).toMatchObject({ code: 'GPX-027' });
    expect((await read([...kept, '--answer', 'GPX-027=keep'])).positions).toHaveLength(3);
  });

  test('G24 a line that would lie on the raster if exchanged is told so', async () => {
    const exchanged = gpx('exchanged.gpx', [[-48.485, -21.38], [-48.486, -21.38]]); // prettier-ignore
    const left = await firnward(['plan', '--elevation', terrain, '--line', exchanged]);
    expect([left.code, left.err]).toEqual([3, expect.stringContaining('longitude and latitude exchanged')]);
  });

  test('an answer that is none is bad usage', async () => {
    const file = gpx('whole.gpx', [[7, 46], [7.001, 46]]); // prettier-ignore
    await expect(read(['--line', file, '--answer', 'yes'])).rejects.toThrow(
      '--answer takes a code and a value',
    );
  });
});

test('a step that would leave cells between stations is made shorter, and said', () => {
  const step = (words: readonly string[], ...cellsM: readonly number[]) =>
    stepOf(readArguments(words, { step: { type: 'string' } }), cellsM.map((cellM) => ({ cellM }))); // prettier-ignore
  expect(step([], 30, 10)).toEqual({ stepM: 5, note: null });
  expect(step([], 2)).toEqual({ stepM: 1, note: null });
  expect(step(['--step', '5'], 10)).toEqual({ stepM: 5, note: null });
  expect(step(['--step', '20'], 30, 5)).toEqual({
    stepM: 2.5,
    note: 'stations stand every 2.5 m, half a cell of the finest raster, not every 20 m as --step asks',
  });
});

test('a negative number is a value, out of range or not', async () => {
  const { number } = readArguments(['--slope', '-1'], { slope: { type: 'string' } });
  expect(number('slope', { min: -5, max: 5 })).toBe(-1);
  const left = await firnward(['slip', '--slope', '-1']);
  expect([left.code, left.err]).toEqual([
    2,
    expect.stringMatching(/--slope takes a number from .*found "-1"/),
  ]);
});
