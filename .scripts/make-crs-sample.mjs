// Writes tests/reference/crs-sample.json: places in every fifteenth system of the table, by GDAL's own `gdaltransform`
// without grids, for a test that needs no GDAL.  node .scripts/make-crs-sample.mjs
import { execFileSync, spawnSync } from 'node:child_process';
import { copyFileSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const stored = JSON.parse(
  readFileSync(new URL('../src/core/files/raster/crs/table.json', import.meta.url), 'utf8'),
);
const bare = mkdtempSync(join(tmpdir(), 'proj-'));
const shared = execFileSync('projinfo', ['--searchpaths']).toString().trim().split('\n').at(-1);
for (const file of ['proj.db', 'proj.ini']) copyFileSync(join(shared, file), join(bare, file));
const env = { ...process.env, PROJ_DATA: bare, PROJ_LIB: bare, PROJ_NETWORK: 'OFF' };

const transform = (from, to, [x, y]) => {
  const args = ['-s_srs', `EPSG:${from}`, '-t_srs', `EPSG:${to}`, '-output_xy'];
  const { stdout } = spawnSync('gdaltransform', args, { input: `${x} ${y}\n`, env, encoding: 'utf8' });
  return stdout.trim().split(' ').map(Number);
};

const systems = Object.entries(stored.geographic)
  .filter(([, [text]]) => stored.texts[text].startsWith('+proj=longlat'))
  .map(([code, [, area]]) => [Number(code), area]);
let code = 0;
for (const [step, , area] of stored.projected) systems.push([(code += step), area]);

const rows = [];
for (let i = 0; i < systems.length; i += 15) {
  const [epsg, areaIndex] = systems[i];
  const [west, south, east, north] = stored.areas[areaIndex] ?? [-10, 40, 10, 50];
  const width = (east - west + 360) % 360 || 360;
  // A little off the middle: round numbers hide mistakes.
  const place = [((west + 0.47 * width + 540) % 360) - 180, south + 0.53 * (north - south)];
  const [x, y] = transform(4326, epsg, place);
  const [lng, lat] = transform(epsg, 4326, [x, y]);
  if ([x, y, lng, lat].every(Number.isFinite)) rows.push([epsg, x, y, lng, lat]);
}
const made = `gdaltransform -s_srs EPSG:n -t_srs EPSG:4326 -output_xy; ${spawnSync('gdalinfo', ['--version'], { encoding: 'utf8' }).stdout.trim()}; ${stored.made}; no grids`;
const lines = rows.map((row) => JSON.stringify(row)).join(',\n');
writeFileSync(
  new URL('../tests/reference/crs-sample.json', import.meta.url),
  `{"made":${JSON.stringify(made)},"rows":[\n${lines}\n]}\n`,
);
console.error(`${rows.length} rows`);
