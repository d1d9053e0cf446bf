import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Figure, Figures } from '../bench/figure';
import { Dice } from '../fuzz/mutate';

/** Kills of every kind of output; more by CRASH_KILLS. */
const kills = Number(process.env['CRASH_KILLS'] ?? 200);

/** A recorded day of tens of thousands of points: writing takes long enough to be hit. */
function longTrack(): string {
  const points = Array.from({ length: 60_000 }, (_, i) => {
    const [lat, lon] = [-48.5 + i * 1e-6, -21.4 + Math.sin(i / 500) * 1e-3];
    return `<trkpt lat="${lat.toFixed(7)}" lon="${lon.toFixed(7)}"><ele>${1200 + (i % 90)}</ele></trkpt>`;
  });
  return `<?xml version="1.0"?><gpx version="1.1" creator="made" xmlns="http://www.topografix.com/GPX/1/1"><trk><name>long</name><trkseg>${points.join('')}</trkseg></trk></gpx>`;
}

const hash = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');

/** Runs the command line; killed after so many milliseconds, if not null. Milliseconds it took. */
function run(words: readonly string[], killAfterMs: number | null): Promise<number> {
  const startedMs = performance.now();
  const child = spawn(process.execPath, [...words], { stdio: 'ignore' });
  const timer = killAfterMs === null ? null : setTimeout(() => child.kill('SIGKILL'), killAfterMs);
  return new Promise((done) =>
    child.on('close', () => {
      if (timer !== null) clearTimeout(timer);
      done(performance.now() - startedMs);
    }),
  );
}

const figures: Figures = async () => {
  const command = resolve('dist/cli/firnward.js');
  if (!existsSync(command))
    return [
      { name: 'command line killed', value: null, unit: 'times', limit: null, why: 'npm run build first' },
    ];
  const place = mkdtempSync(join(tmpdir(), 'firnward-crash-'));
  const source = join(place, 'long.gpx');
  writeFileSync(source, longTrack());
  const dice = new Dice(20_261_125);
  const terrain = resolve('public/demo/ombry-terrain.tif');
  const kinds: readonly (readonly [name: string, words: readonly string[]])[] = [
    ['gpx', ['convert', '--line', source, '--out', join(place, 'out.gpx')]],
    ['geojson', ['convert', '--line', source, '--out', join(place, 'out.geojson')]],
    ['project', ['convert', '--line', source, '--out', join(place, 'out.firnward.json')]],
    [
      'csv',
      [
        'ground',
        '--line',
        resolve('sample-tracks/ombry-headwall.gpx'),
        '--elevation',
        terrain,
        '--step',
        '0.5',
        '--out',
        join(place, 'out.csv'),
      ],
    ],
    ['json', ['slip', '--slope', '30', '--out', join(place, 'out.json')]],
  ];
  const all: Figure[] = [];
  for (const [name, words] of kinds) {
    const out = words.at(-1) ?? '';
    const call = [command, ...words, '--force'];
    const tookMs = await run(call, null);
    const whole = hash(readFileSync(out));
    const old = Buffer.from(`the old ${name}\n`);
    const counts = { old: 0, whole: 0, neither: 0 };
    for (let i = 0; i < kills; i++) {
      writeFileSync(out, old);
      // Most kills fall into the last third, where the writing is.
      const share = i % 4 === 0 ? dice.roll(1000) / 1000 : 0.7 + (0.35 * dice.roll(1000)) / 1000;
      await run(call, tookMs * share);
      const left = hash(readFileSync(out));
      if (left === whole) counts.whole += 1;
      else if (left === hash(old)) counts.old += 1;
      else counts.neither += 1;
    }
    all.push(
      {
        name: `${name}: killed while running`,
        value: counts.old + counts.whole + counts.neither,
        unit: 'times',
        limit: { atLeast: kills },
      },
      { name: `${name}: old file left whole`, value: counts.old, unit: 'times', limit: { atLeast: 1 } },
      {
        name: `${name}: neither the old nor the new file`,
        value: counts.neither,
        unit: 'times',
        limit: { atMost: 0 },
      },
    );
    for (const part of readdirSync(place).filter((file) => file.endsWith('.part'))) rmSync(join(place, part));
  }
  rmSync(place, { recursive: true, force: true });
  return all;
};

export default figures;
