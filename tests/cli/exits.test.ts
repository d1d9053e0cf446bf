import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { writeTiff } from '../core/files/raster/write-tiff';
import { builtCommandLine, firnward } from './built-cli';

const place = mkdtempSync(join(tmpdir(), 'firnward-cli-'));
const line = 'sample-tracks/ombry-normal-route.gpx';
const terrain = 'public/demo/ombry-terrain.tif';

const onePoint = join(place, 'one.gpx');
writeFileSync(
  onePoint,
  '<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg><trkpt lat="-48.48" lon="-21.38"/></trkseg></trk></gpx>',
);

const sha256 = (path: string): string => createHash('sha256').update(readFileSync(path)).digest('hex');

beforeAll(async () => void (await builtCommandLine()), 120_000);
afterAll(() => rmSync(place, { recursive: true, force: true }));

describe('the command line says what is wrong and leaves with its code', () => {
  test.each([
    [['fly'], 2, 'no verb "fly"'],
    [['slip'], 2, '--slope is missing'],
    [['slip', '--slope', 'steep'], 2, '--slope takes a number'],
    [['slip', '--slope', '30', '--colour', 'red'], 2, '--colour'],
    [['pace', '--length', '300', '--mode', 'flying'], 2, '--mode takes'],
    [['pace', '--length', '300', '--mode', 'running-belay', '--act', 'sing=3'], 2, '--act takes'],
    [['plan', '--line', line], 2, '--elevation is missing'],
    [['plan', '--line', line, '--elevation', terrain, '--format', 'json,csv'], 2, 'need --out'],
    [['plan', '--line', 'nowhere.gpx', '--elevation', terrain], 3, 'nowhere.gpx: cannot be read'],
    [['plan', '--line', onePoint, '--elevation', terrain], 3, 'one.gpx: the line has one point only'],
    [['plan', '--line', line, '--elevation', 'nowhere.tif'], 3, 'nowhere.tif: cannot be read'],
    [['plan', '--line', line, '--elevation', 'README.md'], 3, 'README.md'],
    [['ground', '--elevation', terrain], 2, 'either --at'],
    [['plan', '--line', line, '--elevation', terrain, '--start', 'at four'], 2, '--start takes'],
  ] as const)('%j', async (words, code, text) => {
    const left = await firnward(words);
    expect(left.code).toBe(code);
    expect(left.err).toContain(text);
    expect(left.out).toBe('');
    expect(left.err.trim().split('\n')).toHaveLength(1);
  });

  test('several lines in one file are asked about by the flag that answers', async () => {
    const file = join(place, 'two.geojson');
    const feature = (lat: number) => ({
      type: 'Feature',
      properties: { name: `line ${lat}` },
      geometry: {
        type: 'LineString',
        coordinates: [
          [-21.4, lat],
          [-21.39, lat],
        ],
      },
    });
    writeFileSync(
      file,
      JSON.stringify({ type: 'FeatureCollection', features: [feature(-48.49), feature(-48.48)] }),
    );
    const left = await firnward(['ground', '--elevation', terrain, '--line', file]);
    expect(left.code).toBe(3);
    expect(left.err).toContain('--track n');
    expect((await firnward(['ground', '--elevation', terrain, '--line', file, '--track', '2'])).code).toBe(0);
  });

  test('a place that cannot be written to is told, and no part of a file is left', async () => {
    const left = await firnward(['slip', '--slope', '30', '--out', join(place, 'no', 'such', 'folder.json')]);
    expect(left.code).toBe(3);
    expect(readdirSync(place).filter((name) => name.endsWith('.part'))).toEqual([]);
  });
});

describe('every verb does its work', () => {
  test('slip gives all four techniques, shares of 100', async () => {
    const { code, out } = await firnward(['slip', '--slope', '30', '--snow', 'P']);
    expect(code).toBe(0);
    const report = JSON.parse(out) as Record<string, Record<string, number>>;
    expect(Object.keys(report)).toEqual(['roped', 'runningBelay', 'runningBelayCapture', 'pitchedBelay']);
    for (const shares of Object.values(report)) {
      const sum = ['itself', 'ownArrest', 'mates', 'piece', 'unheld'].reduce(
        (all, key) => all + (shares[key] ?? NaN),
        0,
      );
      expect(sum).toBeCloseTo(100, 0);
    }
  });

  test('pace counts a stretch, with acts of one’s own', async () => {
    const { out } = await firnward([
      ...['pace', '--length', '300', '--mode', 'running-belay', '--spacing', '12', '--speed', '0.2'],
      ...['--act', 'place=150', 'clip=20', 'remove=45', 'stance=120', 'handover=120'],
    ]);
    const report = JSON.parse(out) as Record<string, number>;
    expect(Object.keys(report)).toEqual(['timeS', 'rotations', 'gatherings', 'piecesPlaced', 'stops']);
    expect(report['rotations']).toBe(13); // 300 m by one rope length of 24 m each
  });

  test('ground answers in the order asked, empty where there is no data', async () => {
    const points = join(place, 'points.csv');
    writeFileSync(points, 'name,lon,lat\nfirst,-21.38,-48.485\nfar away,10,10\n');
    const { code, out } = await firnward(['ground', '--elevation', terrain, '--at', points]);
    expect(code).toBe(0);
    const rows = out.trim().split('\r\n');
    expect(rows[0]).toBe('lon,lat,elevation_m,slope_deg,aspect_deg,curvature_per_m');
    expect(rows[1]).toMatch(/^-21\.380000000,-48\.485000000,\d+\.\d{3},\d+\.\d{4},/);
    expect(rows[2]).toBe('10.000000000,10.000000000,,,,');
  });

  test('zeros among high ground are told beside the rows, and stay data', async () => {
    const tif = join(place, 'zeros.tif');
    const points = join(place, 'zeros.csv');
    const metres = Array.from({ length: 400 }, (_, i) => (i % 20 < 10 ? 0 : 1500));
    writeFileSync(tif, writeTiff({ widthPx: 20, heightPx: 20, cells: metres }));
    // Ten metres a cell from 9 degrees east on: one place among the zeros, one among the others.
    writeFileSync(points, 'lon,lat\n9.0006,46.0527\n9.0020,46.0527\n');
    const { out, err } = await firnward(['ground', '--elevation', tif, '--at', points]);
    expect(out.split('\r\n').slice(1, 3).map((row) => row.split(',')[2])).toEqual(['0.000', '1500.000']); // prettier-ignore
    expect(err).toContain('1 point at exactly 0 m, and others high above the sea');
  });

  test('a raster is placed by the world file beside it and what the project remembers of it', async () => {
    const bare = join(place, 'bare.tif');
    const points = join(place, 'bare.csv');
    writeFileSync(bare, writeTiff({ widthPx: 4, heightPx: 4, without: [33550, 33922, 34735] }));
    writeFileSync(join(place, 'bare.tfw'), '10\n0\n0\n-10\n500005\n5099995\n');
    writeFileSync(points, 'lon,lat\n9.000258539,46.053439366\n'); // the middle, by gdaltransform (PROJ 9)
    const ask = ['ground', '--elevation', bare, '--at', points];
    const without = await firnward(ask);
    expect([without.code, without.err]).toEqual([3, expect.stringContaining('--crs EPSG:n')]);
    const { out } = await firnward([...ask, '--crs', 'EPSG:32632']);
    expect(out.split('\r\n')[1]).toMatch(/^9\.000258539,46\.053439366,1005\.500,/);

    const terrain = { crs: 'EPSG:32632', fileName: 'bare.tif' };
    const project = join(place, 'knows.firnward.json');
    writeFileSync(project, JSON.stringify({ format: 'firnward-project', version: 1, terrain: [terrain] }));
    const line = join(place, 'short.geojson');
    const coordinates = [[9.00022, 46.05345], [9.0003, 46.05343]]; // prettier-ignore
    writeFileSync(line, JSON.stringify({ type: 'LineString', coordinates }));
    const plan = await firnward(['plan', '--line', line, '--elevation', bare, '--project', project]);
    expect(plan.code).toBe(0);
    const { terrain: said } = JSON.parse(plan.out) as { terrain: Record<string, unknown>[] };
    expect(said).toMatchObject([{ frame: 'EPSG:32632', checksum: sha256(bare) }]);
  });

  test('whoever reads our output may stop when it has seen enough', () => {
    const words = ['ground', '--elevation', terrain, '--line', line, '--step', '0.1'];
    const { status, stderr } = spawnSync('bash', [
      '-c',
      'set -o pipefail; "$@" | head -c 20',
      'bash',
      process.execPath,
      'dist/cli/firnward.js',
      ...words,
    ]);
    expect([status, stderr.toString()]).toEqual([0, expect.not.stringContaining('EPIPE')]);
  });

  test('convert goes there and back', async () => {
    const geojson = join(place, 'day.geojson');
    const gpx = join(place, 'day.gpx');
    expect(
      (await firnward(['convert', '--line', 'sample-tracks/ombry-recorded-day.gpx', '--out', geojson])).code,
    ).toBe(0);
    expect((await firnward(['convert', '--line', geojson, '--out', gpx])).code).toBe(0);
    const times = (file: string) => readFileSync(file, 'utf8').match(/<time>/g)?.length;
    expect(times(gpx)).toBe(times('sample-tracks/ombry-recorded-day.gpx'));
  });

  test('plan starts when it is told, and comes back by another line', async () => {
    const flat = join(place, 'flat.tif');
    const metres = Array.from({ length: 40 * 40 }, (_, i) => 1200 + (i % 40));
    writeFileSync(flat, writeTiff({ widthPx: 40, heightPx: 40, cells: metres }));
    const along = (lat: number) => [9.001, 9.002, 9.003].map((lng) => [lng, lat]);
    const there = { id: 'there', name: 'there', points: along(46.0525) };
    const other = { id: 'other', name: 'other', points: [...along(46.0525).reverse(), [9.001, 46.0515]] };
    const override = { id: 'o', fromM: 0, toM: 50, note: 'here' };
    const schedule = { zone: 'Etc/GMT+1', wayBack: { alternativeId: 'other' } };
    const format = { format: 'firnward-project', version: 1 };
    const project = join(place, 'other-way.firnward.json');
    const party = { climbers: [{ name: 'A' }, { name: 'B' }] };
    const told = { ...format, line: there, alternatives: [other], overrides: [override], schedule, party };
    writeFileSync(project, JSON.stringify(told));

    const words = ['plan', '--line', project, '--elevation', flat, '--start', '2026-01-17T05:00:00Z'];
    const planned = await firnward([...words, '--project', project]);
    const plan = JSON.parse(planned.out) as Record<'segments' | 'warnings', Record<string, string>[]> & {
      wayBack: { segments: Record<string, string>[] };
    };
    expect(plan.segments[0]!['arrive']).toBe('2026-01-17T04:00:00-01:00');
    expect(plan.wayBack.segments.at(-1)!['mode']).toBe('roped');
    const codes = plan.warnings.map(({ code }) => code);
    for (const code of ['way-back', 'IN-006', 'IN-007']) expect(codes).not.toContain(code);
  }, 120_000);

  test('plan writes every format', async () => {
    const out = join(place, 'plan.json');
    const words = [
      'plan',
      '--line',
      line,
      '--elevation',
      terrain,
      '--project',
      'public/demo/ombry.firnward.json',
    ];
    const left = await firnward([...words, '--format', 'json,csv,gpx,geojson,html', '--out', out]);
    expect(left.err).toBe('');
    expect(left.code).toBe(0);
    for (const format of ['json', 'csv', 'gpx', 'geojson', 'html'])
      expect(readFileSync(join(place, `plan.${format}`), 'utf8').length).toBeGreaterThan(1000);
    // The program is kept as compiled code and as text: words beyond ASCII must come through both.
    const sheet = readFileSync(join(place, 'plan.html'), 'utf8');
    expect(sheet).toMatch(/\d°/);
    expect(sheet).toContain('Whiteout');
    expect(sheet).toMatch(/\d–\d/);
    expect(sheet).not.toMatch(/[ÂÃâ][\u0080-\u00bf€]/);
  }, 120_000);
});
