import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { defaultFigures } from '../../src/core/assumptions/figures';
import type { LngLat } from '../../src/core/domain/coordinates';
import { bufferSource } from '../../src/core/files/raster/byte-source';
import { openRaster } from '../../src/core/files/raster/open';
import { positionOfCell } from '../../src/core/ground/ground-scale';
import { readGround } from '../../src/core/ground/read-ground';
import { shadeTile } from '../../src/core/ground/relief';
import { hornSlopes } from '../../src/core/ground/slope-kernel';
import { makeStations } from '../../src/core/line/stations';
import type { Raster } from '../../src/core/domain/raster';
import { allSlopes, isSlopesThread, slopesThread } from './all-slopes';
import { hasProgram, quickest, quickestByTurns, run } from './child';
import { medianMs, type Figure } from './figure';
import { writeTerrain } from './made-terrain';
import { serveRanges } from './range-server';

/**
 * Speed and thrift of reading the ground, each against GDAL's own command line (3.6 and later) in the same run where a
 * ratio is promised. All terrain is made here: waves over 3601 x 3601 cells of 30 m, and over 10 240 x 10 240 cells of 10 m
 * (419 MB).
 */
const self = fileURLToPath(import.meta.url);
const root = resolve(import.meta.dirname, '../../..');
const commandLine = join(root, 'dist/cli/firnward.js');
const sidePx = 3601;

if (isSlopesThread()) await slopesThread();
else if (process.argv[2] === 'all-slopes') await allSlopes(process.argv[3]!, process.argv[4]!, self);

export default async function groundFigures(): Promise<readonly Figure[]> {
  const folder = mkdtempSync(join(tmpdir(), 'ground-'));
  try {
    buildCommandLine();
    const middle = join(folder, 'middle.tif');
    writeTerrain({
      path: middle,
      widthPx: sidePx,
      heightPx: sidePx,
      cellM: 30,
      isDeflated: true,
      stepM: 0.01,
    });
    const figures = [
      await kernel(folder, middle),
      await fileToSlopes(folder, middle),
      await sampleLine(folder, middle),
      await stationsAndSlides(),
      await reliefTile(middle),
    ];
    rmSync(middle);
    return [...figures, ...(await large(folder)), ...(await remote(folder))];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The command line as it is shipped, of the source as it is now. */
function buildCommandLine(): void {
  const built = spawnSync('npx', ['vite', 'build', '--mode', 'cli', '--logLevel', 'error'], { cwd: root });
  if (built.status !== 0 || !existsSync(commandLine))
    throw new Error(`no command line: ${built.stderr.toString()}`);
}

const noGdal = 'no gdal-bin';

/** Slopes of cells in memory, one thread, against GDAL's time for slopes less its time for copying the same cells. */
async function kernel(folder: string, tif: string): Promise<Figure> {
  const figure = { name: 'slope-kernel-3601-against-gdal', unit: 'x', limit: { atLeast: 1 } } as const;
  if (!hasProgram('gdaldem')) return { ...figure, value: null, why: noGdal };
  const raw = join(folder, 'raw.bil');
  spawnSync('gdal_translate', ['-q', '-of', 'ENVI', tif, raw]);
  const quiet = ['-q', '-of', 'ENVI'];
  const slope = await quickest(5, () => run('gdaldem', ['slope', ...quiet, raw, '/vsimem/out.bil']));
  const copy = await quickest(5, () => run('gdal_translate', [...quiet, raw, '/vsimem/out.bil']));
  const bytes = readFileSync(raw);
  const z = new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
  const slopes = new Float32Array(z.length);
  const metric = { xx: 1 / (64 * 900), xy: 0, yy: 1 / (64 * 900) };
  const times = [];
  for (let i = 0; i < 7; i++) {
    times.push(await medianMs(1, () => hornSlopes(z, sidePx, { fromRow: 0, toRow: sidePx }, metric, slopes)));
  }
  const ours = Math.min(...times);
  const theirs = slope.ms - copy.ms;
  rmSync(raw);
  return { ...figure, value: theirs / ours, why: `${ours.toFixed(0)} ms against ${theirs.toFixed(0)} ms` };
}

/** From a deflated file to a file of slopes, process started to process ended, on all cores. */
async function fileToSlopes(folder: string, tif: string): Promise<Figure> {
  const figure = { name: 'file-to-slopes-3601-against-gdaldem', unit: 'x', limit: { atLeast: 1 } } as const;
  if (!hasProgram('gdaldem')) return { ...figure, value: null, why: noGdal };
  const [a, b] = [join(folder, 'ours.bil'), join(folder, 'theirs.bil')];
  const ours = await quickest(3, () => run(process.execPath, [self, 'all-slopes', tif, a]));
  const theirs = await quickest(3, () => run('gdaldem', ['slope', '-q', '-of', 'ENVI', tif, b]));
  if (ours.status !== 0) throw new Error(ours.stderr);
  const off = worstDifference(a, b);
  if (!(off < 0.05)) throw new Error(`slopes are off by ${off} degrees`);
  const why = `${ours.ms.toFixed(0)} ms against ${theirs.ms.toFixed(0)} ms, slopes within ${off.toFixed(4)} degrees`;
  return { ...figure, value: theirs.ms / ours.ms, why };
}

/** Most that two files of slopes differ; Infinity where one has a slope and the other none. UTM's own scale is 0.04 % here. */
function worstDifference(ours: string, theirs: string): number {
  const [a, b] = [ours, theirs].map((path) => {
    const bytes = readFileSync(path);
    return new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
  }) as [Float32Array, Float32Array];
  let worst = 0;
  for (let i = 0; i < a.length; i++) {
    if (b[i] === -9999) worst = Number.isNaN(a[i]!) ? worst : Infinity;
    else worst = Math.max(worst, Math.abs(a[i]! - b[i]!));
  }
  return worst;
}

/** A line over a raster, as GPX, and its stations. */
function lineOver(raster: Raster, lengthM: number): { positions: LngLat[]; gpx: string } {
  const count = 200;
  const cells = lengthM / raster.cellM;
  const positions = Array.from({ length: count + 1 }, (_, i): LngLat => {
    const t = i / count - 0.5;
    return positionOfCell(
      raster,
      raster.widthPx / 2 + 0.93 * cells * t,
      raster.heightPx / 2 + 0.05 * cells * Math.sin(9 * t) + 0.2 * cells * t,
    );
  });
  const points = positions
    .map(([lng, lat]) => `<trkpt lat="${lat.toFixed(7)}" lon="${lng.toFixed(7)}"/>`)
    .join('');
  const gpx = `<gpx version="1.1" creator="made" xmlns="http://www.topografix.com/GPX/1/1"><trk><name>made</name><trkseg>${points}</trkseg></trk></gpx>`;
  return { positions, gpx };
}

/** Elevation and slope every 5 m of 20 km: our command line against slopes of the whole raster and two look-ups by GDAL. */
async function sampleLine(folder: string, tif: string): Promise<Figure> {
  const figure = { name: 'sample-20-km-against-gdal', unit: 'x', limit: { atLeast: 5 } } as const;
  if (!hasProgram('gdaldem')) return { ...figure, value: null, why: noGdal };
  const { positions, gpx } = lineOver(await openBytes(tif), 20_000);
  const line = join(folder, 'line.gpx');
  writeFileSync(line, gpx);
  const csv = join(folder, 'ours.csv');
  const args = [
    commandLine,
    'ground',
    '--elevation',
    tif,
    '--line',
    line,
    '--step',
    '5',
    '--force',
    '--out',
    csv,
  ];
  const points = makeStations(positions, { stepM: 5, alsoAtM: [] })
    .map(({ position: [lng, lat] }) => `${lng} ${lat}\n`)
    .join('');
  const slopes = join(folder, 'slopes.tif');
  const sample = () => run(process.execPath, args);
  const [ours, theirs] = await quickestByTurns(12, sample, async () => {
    const made = await run('gdaldem', ['slope', '-q', tif, slopes]);
    const looks = [];
    for (const file of [tif, slopes])
      looks.push(await run('gdallocationinfo', ['-valonly', '-wgs84', file], { input: points }));
    return { ...made, ms: made.ms + looks.reduce((sum, { ms }) => sum + ms, 0) };
  });
  if (ours.status !== 0) throw new Error(ours.stderr);
  const rows = readFileSync(csv, 'utf8').trim().split(/\r?\n/).length - 1;
  const why = `${rows} stations, ${ours.ms.toFixed(0)} ms against ${theirs.ms.toFixed(0)} ms`;
  return { ...figure, value: theirs.ms / ours.ms, why };
}

async function openBytes(path: string): Promise<Raster> {
  const opened = await openRaster(bufferSource(path, new Uint8Array(readFileSync(path))));
  if (!opened.ok) throw new Error(opened.problem.title);
  return opened.value;
}

/** 10 km of stations with their slides on six hardnesses, blocks in memory. */
async function stationsAndSlides(): Promise<Figure> {
  const folder = mkdtempSync(join(tmpdir(), 'ground-'));
  const path = join(folder, 'fine.tif');
  writeTerrain({ path, widthPx: 2560, heightPx: 2560, cellM: 5, isDeflated: false, stepM: 0.01 });
  const raster = await openBytes(path);
  rmSync(folder, { recursive: true });
  const stations = makeStations(lineOver(raster, 10_000).positions, { stepM: 5, alsoAtM: [] });
  const read = () =>
    readGround({
      stations,
      rasters: [raster],
      marks: [],
      figures: defaultFigures,
      sigmaZM: [null],
      stepM: 5,
    });
  await read();
  return {
    name: 'ground-of-10-km-with-slides-on-5-m-cells',
    value: await medianMs(5, read),
    unit: 'ms',
    limit: { atMost: 1000 },
    why: `${stations.length} stations`,
  };
}

async function reliefTile(tif: string): Promise<Figure> {
  const raster = await openBytes(tif);
  const [lng, lat] = positionOfCell(raster, sidePx / 2, sidePx / 2);
  const z = 12;
  const tile = {
    z,
    x: Math.floor(((lng + 180) / 360) * 2 ** z),
    y: Math.floor(((1 - Math.asinh(Math.tan((lat * Math.PI) / 180)) / Math.PI) / 2) * 2 ** z),
    sizePx: 512,
  };
  const shade = () => shadeTile({ rasters: [raster], tile });
  await medianMs(3, shade);
  return { name: 'relief-tile-512', value: await medianMs(15, shade), unit: 'ms', limit: { atMost: 60 } };
}

/** A raster of 400 MB and more on disk: opened, and 10 km planned in it, by the command line. */
async function large(folder: string): Promise<readonly Figure[]> {
  const path = join(folder, 'large.tif');
  writeTerrain({ path, widthPx: 10_240, heightPx: 10_240, cellM: 10, isDeflated: false, stepM: 0.001 });
  const line = join(folder, 'large.gpx');
  writeFileSync(line, await gpxOver(path));
  const args = [
    commandLine,
    'plan',
    '--elevation',
    path,
    '--line',
    line,
    '--force',
    '--out',
    join(folder, 'large.json'),
  ];
  const ran = await quickest(5, () => run(process.execPath, args, { isWatched: true }));
  if (ran.status !== 0) throw new Error(ran.stderr);
  const fileMB = statSync(path).size / 2 ** 20;
  rmSync(path);
  return [
    {
      name: 'plan-10-km-in-400-MB-reads',
      value: ran.readMB === null ? null : (100 * ran.readMB) / fileMB,
      unit: '%',
      limit: { atMost: 5 },
      why:
        ran.readMB === null
          ? 'no /proc here'
          : `${ran.readMB.toFixed(1)} of ${fileMB.toFixed(0)} MB, the program itself counted`,
    },
    {
      name: 'plan-10-km-in-400-MB-peaks',
      value: ran.peakMB,
      unit: 'MB',
      limit: { atMost: 300 },
      ...(ran.peakMB === null ? { why: 'no /proc here' } : {}),
    },
    { name: 'plan-10-km-in-400-MB-takes', value: ran.ms, unit: 'ms', limit: { atMost: 2000 } },
  ];
}

/** Opens a raster by ranges only, so that a large one is not held here. */
async function gpxOver(path: string): Promise<string> {
  const { openFileSource } = await import('../../src/cli/file-source');
  const source = openFileSource(path);
  const opened = await openRaster(source);
  if (!opened.ok) throw new Error(opened.problem.title);
  const { gpx } = lineOver(opened.value, 10_000);
  source.close();
  return gpx;
}

/** The same by range requests from a server on this machine, deflated as files on servers are. */
async function remote(folder: string): Promise<readonly Figure[]> {
  const path = join(folder, 'remote.tif');
  writeTerrain({ path, widthPx: 10_240, heightPx: 10_240, cellM: 10, isDeflated: true, stepM: 0.1 });
  const line = join(folder, 'remote.gpx');
  writeFileSync(line, await gpxOver(path));
  const server = await serveRanges(path);
  try {
    const out = join(folder, 'remote.json');
    const ran = await run(process.execPath, [
      commandLine,
      'plan',
      '--elevation',
      server.url,
      '--line',
      line,
      '--force',
      '--out',
      out,
    ]);
    if (ran.status !== 0) throw new Error(ran.stderr);
    const fileMB = statSync(path).size / 2 ** 20;
    return [
      {
        name: 'plan-10-km-remote-requests',
        value: server.counted.requests,
        unit: 'requests',
        limit: { atMost: 40 },
        why: `of a file of ${fileMB.toFixed(0)} MB`,
      },
      {
        name: 'plan-10-km-remote-reads',
        value: server.counted.bytes / 2 ** 20,
        unit: 'MB',
        limit: { atMost: 4 },
      },
    ];
  } finally {
    await server.stop();
  }
}
