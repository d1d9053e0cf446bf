import { spawn, spawnSync } from 'node:child_process';
import {
  chmodSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { nearestWord } from '../../src/cli/nearest-word';
import { builtCommandLine, firnward } from './built-cli';

const place = mkdtempSync(join(tmpdir(), 'firnward-careful-'));
const at = (name: string) => join(place, name);
const sample = resolve('sample-tracks/ombry-headwall.gpx');
const slip = ['slip', '--slope', '30'];
let command = '';

beforeAll(async () => void (command = await builtCommandLine()), 120_000);
afterAll(() => rmSync(place, { recursive: true, force: true }));

/** In a shell, as a user would. */
const shell = (line: string, env: NodeJS.ProcessEnv = {}) => {
  const { status, stdout, stderr } = spawnSync('bash', ['-c', `set -o pipefail; ${line}`], {
    env: { ...process.env, FIRNWARD: `${process.execPath} ${command}`, SAMPLE: sample, ...env },
    cwd: place,
  });
  return { status, out: stdout.toString(), err: stderr.toString() };
};

describe('X3 a file that stands', () => {
  test('is replaced with --force only, with its rights; what it leads to is written, not the link', async () => {
    writeFileSync(at('old.json'), 'old');
    chmodSync(at('old.json'), 0o640);
    symlinkSync(at('old.json'), at('link.json'));
    const refused = await firnward([...slip, '--out', at('link.json')]);
    expect([refused.code, refused.out]).toEqual([3, '']);
    expect(refused.err).toMatch(/link\.json: stands already.*--force.*\[OUT-002\]\n$/);
    expect(readFileSync(at('old.json'), 'utf8')).toBe('old');
    expect((await firnward([...slip, '--out', at('link.json'), '--force'])).code).toBe(0);
    expect(JSON.parse(readFileSync(at('old.json'), 'utf8'))).toHaveProperty('roped');
    expect(statSync(at('old.json')).mode & 0o777).toBe(0o640);
    expect(statSync(at('link.json')).isFile()).toBe(true);
  });

  test('is asked about before the work, each of several', async () => {
    writeFileSync(at('day.html'), 'mine');
    const words = ['--line', sample, '--elevation', 'nowhere.tif', '--format', 'json,html'];
    const left = await firnward(['plan', ...words, '--out', at('day.json')]);
    expect(left.err).toContain('day.html: stands already');
    expect(readdirSync(place)).not.toContain('day.json');
  });
});

test.each([
  [
    'standard output on a full disk',
    '$FIRNWARD slip --slope 30 > /dev/full',
    /standard output: cannot be written \(ENOSPC\)/,
  ],
  ['a full device', '$FIRNWARD slip --slope 30 --out /dev/full', /cannot be written \(ENOSPC\)/],
  ['a folder for a file', `$FIRNWARD slip --slope 30 --out ${tmpdir()}`, /cannot be written \(EISDIR\)/],
])('X4 %s: told on standard error, 3, no part of a file', (_, line, said) => {
  const { status, err } = shell(line);
  expect(status).toBe(3);
  expect(err).toMatch(said);
  expect(readdirSync(place).filter((name) => name.endsWith('.part'))).toEqual([]);
});

describe('X5 what is mistyped', () => {
  test.each([
    [['slip', '--slop', '30'], 'there is no --slop; did you mean --slope? See'],
    [['slip', '--slope', '30', '--xyzzy'], 'there is no --xyzzy. See'],
    [['slipp'], 'no verb "slipp"; did you mean slip? See'],
    [['slip', '--slope'], "Option '--slope' argument is ambiguous. Did you forget"],
    [['slip', '--slope', '30', '--slope', '3'], '--slope is given twice. See'],
  ])('%j', async (words, said) => {
    const left = await firnward([...words, '--out', at('never.json')]);
    expect([left.code, left.out]).toEqual([2, '']);
    expect(left.err).toContain(said);
    expect(left.err.trim().split('\n')).toHaveLength(1);
    expect(readdirSync(place)).not.toContain('never.json');
  });

  test('the nearest word, and none that is far', () => {
    expect(nearestWord('elevatoin', ['elevation', 'line'])).toBe('elevation');
    expect(nearestWord('LINE', ['elevation', 'line'])).toBe('line');
    expect(nearestWord('qqqqq', ['elevation', 'line'])).toBeNull();
  });
});

describe('X6 a dash is standard input or output', () => {
  test('a track comes in and goes out', () => {
    const { status, out } = shell('cat $SAMPLE | $FIRNWARD convert --line - --out - --to geojson');
    expect(status).toBe(0);
    expect(JSON.parse(out)).toHaveProperty('type', 'FeatureCollection');
    expect(shell('$FIRNWARD slip --slope 30 --out -').out).toContain('"roped"');
  });

  test('not two of them, and no raster', () => {
    const terrain = resolve('public/demo/ombry-terrain.tif');
    const two = shell(`cat $SAMPLE | $FIRNWARD plan --line - --project - --elevation ${terrain}`);
    expect([two.status, two.err]).toEqual([2, expect.stringContaining('only one file')]);
    const raster = shell(`cat ${terrain} | $FIRNWARD ground --line $SAMPLE --elevation -`);
    expect([raster.status, raster.err]).toEqual([2, expect.stringContaining('not standard input')]);
  });
});

test('X7 the same bytes whatever the order of options, the locale and the time zone', () => {
  const terrain = resolve('public/demo/ombry-terrain.tif');
  const once = `$FIRNWARD ground --line $SAMPLE --elevation ${terrain} --step 50`;
  const other = `$FIRNWARD ground --step 50 --elevation ${terrain} --line $SAMPLE`;
  const plain = shell(once).out;
  expect(plain.length).toBeGreaterThan(1000);
  expect(shell(other, { LC_ALL: 'ar_EG.UTF-8', LANG: 'ar_EG', TZ: 'Asia/Kathmandu' }).out).toBe(plain);
});

test('X8 stopped by its user: no part of a file, the old one as it was', async () => {
  const out = at('stopped.json');
  writeFileSync(out, 'old');
  const terrain = resolve('public/demo/ombry-terrain.tif');
  const words = ['plan', '--line', sample, '--elevation', terrain, '--force', '--out', out];
  const child = spawn(process.execPath, [command, ...words]);
  setTimeout(() => child.kill('SIGINT'), 500);
  const left = await new Promise((done) => child.on('close', (code, signal) => done(signal ?? code)));
  // Shells count an end by signal 2 as 130; while a file is written it is waited for and counted by ourselves.
  expect(['SIGINT', 130]).toContain(left);
  expect(readFileSync(out, 'utf8')).toBe('old');
  expect(readdirSync(place).filter((name) => name.endsWith('.part'))).toEqual([]);
});
