// Writes src/core/files/raster/crs/table.json, and usual.json beside it: every EPSG projected and geographic 2D system that proj4 (the npm package)
// shows as PROJ does, with the datum shifts PROJ would choose without grids. Needs PROJ's `projinfo` and GDAL's
// `gdaltransform` (Debian: apt-get install proj-bin gdal-bin). Takes about a quarter of an hour:
//   node .scripts/make-crs-table.mjs
import { execFile, execFileSync, spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import proj4 from 'proj4';
import { bodyText, proj4Text } from './crs-text.mjs';
import { shiftOf } from './crs-shift.mjs';
import { pool, writeUsual } from './usual-systems.mjs';

const out = new URL('../src/core/files/raster/crs/table.json', import.meta.url);

// A data folder that holds the database and no grids, so that every run chooses alike.
const bare = mkdtempSync(join(tmpdir(), 'proj-'));
const shared = execFileSync('projinfo', ['--searchpaths']).toString().trim().split('\n').at(-1);
for (const file of ['proj.db', 'proj.ini']) copyFileSync(join(shared, file), join(bare, file));
const env = { ...process.env, PROJ_DATA: bare, PROJ_LIB: bare, PROJ_NETWORK: 'OFF' };

// What projinfo answered is kept, so that a second run is quick.
const answersFile = join(tmpdir(), 'crs-answers.json');
const answers = existsSync(answersFile) ? JSON.parse(readFileSync(answersFile, 'utf8')) : {};

function run(command, args, input) {
  const key = [command, ...args, input ?? ''].join(' ');
  if (answers[key] !== undefined) return Promise.resolve(answers[key]);
  return new Promise((resolve) => {
    const child = execFile(command, args, { env, maxBuffer: 1 << 26 }, (error, stdout) => {
      if (!error) answers[key] = stdout;
      resolve(error ? '' : stdout);
    });
    child.stdin.on('error', () => undefined); // projinfo does not read it and may be gone
    child.stdin.end(input ?? '');
  });
}

/** At most two at a time: the order of the results is that of the items. */
async function each(items, work) {
  const results = [];
  let next = 0;
  const worker = async () => {
    while (next < items.length) {
      const i = next++;
      results[i] = await work(items[i]);
    }
  };
  await Promise.all([worker(), worker()]);
  return results;
}

async function codes(filter) {
  const text = await run('projinfo', ['--list-crs', `${filter},allow_deprecated`]);
  return [...text.matchAll(/^EPSG:(\d+)/gm)].map(([, code]) => Number(code));
}

/** The lines after every "LABEL:" line. */
const after = (text, label) =>
  text
    .split(`${label}:\n`)
    .slice(1)
    .map((part) => part.split('\n')[0]);

async function describe(code) {
  const text = await run('projinfo', ['--single-line', '-o', 'PROJ,PROJJSON', `EPSG:${code}`]);
  const [text4] = after(text, 'PROJ.4 string');
  const [json] = after(text, 'PROJJSON');
  return text4 && json ? { code, text4, json: JSON.parse(json) } : null;
}

const world = [-180, -90, 180, 90];

/** Operations to WGS 84 that need no grid, in PROJ's order. */
async function shifts(code) {
  const args = [
    '-s',
    `EPSG:${code}`,
    '-t',
    'EPSG:4326',
    '--spatial-test',
    'intersects',
    '--grid-check',
    'discard_missing',
    '--single-line',
    '-o',
    'PROJ,PROJJSON',
  ];
  const text = await run('projinfo', args);
  const found = [];
  for (const part of text.split(/Operation No\. \d+:\n/).slice(1)) {
    const [pipeline] = after(part, 'PROJ string');
    const [json] = after(part, 'PROJJSON');
    const shift = pipeline === undefined ? null : shiftOf(pipeline);
    if (shift === null) continue;
    const box = json === undefined ? undefined : JSON.parse(json).bbox;
    const isBallpark = part.includes('Ballpark');
    const [, accuracy = '-1', where = ''] = /, ([\d.]+) m, (.*)/.exec(part) ?? [];
    const area = box
      ? [box.west_longitude, box.south_latitude, box.east_longitude, box.north_latitude]
      : world;
    found.push({
      shift,
      isBallpark,
      accuracy: Number(accuracy),
      isOffshore: where.includes('- offshore'),
      area,
    });
  }
  // Where nothing covers the place, PROJ takes the first of the list; a guess covers the world.
  const [first] = found;
  return first === undefined || found.some(({ isBallpark }) => isBallpark)
    ? found
    : [...found, { ...first, area: world }];
}

const round = (n, digits) => Number(n.toFixed(digits));
const boxOf = ({ json }) => {
  const box = json.bbox ?? json.usages?.[0]?.bbox;
  return (
    box &&
    [box.west_longitude, box.south_latitude, box.east_longitude, box.north_latitude].map((n) => round(n, 2))
  );
};

const keepAnswers = () => writeFileSync(answersFile, JSON.stringify(answers));
console.error('reading the systems');
const projected = (await each(await codes('projected'), describe)).filter(Boolean);
keepAnswers();
const geographic = (await each(await codes('geographic_2d'), describe)).filter(Boolean);
const baseOf = new Map(
  projected.map(({ code, json }) => [code, (json.base_crs ?? json.source_crs?.base_crs)?.id?.code ?? null]),
);
const known = new Set(geographic.map(({ code }) => code));
console.error(`${projected.length} projected, ${geographic.length} geographic; reading their datum shifts`);
keepAnswers();
const shiftsOf = new Map(await each(geographic, async ({ code }) => [code, await shifts(code)]));

const texts = pool();
const areas = pool();
keepAnswers();
const release = spawnSync('projinfo', [], { encoding: 'utf8' }).stderr.split('\n')[0]; // it tells its release when it is asked nothing
const table = {
  made: `PROJ ${release}`,
  texts: texts.list,
  areas: areas.list,
  geographic: {},
  projected: [],
};
const dropped = { text: [], base: [], shift: [], disagree: [] };

const tried = [];
for (const crs of geographic) {
  const text = proj4Text(crs.text4, crs.json);
  const list = shiftsOf.get(crs.code);
  if (text === null) dropped.text.push(crs.code);
  else if (list.length === 0) dropped.shift.push(crs.code);
  else tried.push({ ...crs, base: crs.code, text, isGeographic: true });
}
for (const crs of projected) {
  const base = baseOf.get(crs.code);
  const text = proj4Text(crs.text4, crs.json);
  if (text === null) dropped.text.push(crs.code);
  else if (!known.has(base)) dropped.base.push(crs.code);
  else if (shiftsOf.get(base).length === 0) dropped.shift.push(crs.code);
  else tried.push({ ...crs, base, text, isGeographic: false });
}

const covers = ([w, s, e, n], [lng, lat]) =>
  lat >= s && lat <= n && (w <= e ? lng >= w && lng <= e : lng >= w || lng <= e);

/** The one PROJ chooses at a place (its pj_get_suggested_operation); the page does the same. */
function choose(list, [lng, lat]) {
  let best;
  for (const one of list) {
    if (!covers(one.area, [lng, lat])) continue;
    const isBetter =
      best === undefined || (!one.isOffshore && one.accuracy >= 0 && one.accuracy < best.accuracy);
    if (isBetter) best = one;
  }
  return best;
}

/** Places well inside the area of use: its middle and four half way out. */
function places([west, south, east, north]) {
  const width = (east - west + 360) % 360 || 360;
  const at = (x, y) => [((west + x * width + 540) % 360) - 180, south + y * (north - south)];
  return [at(0.5, 0.5), at(0.3, 0.3), at(0.7, 0.3), at(0.3, 0.7), at(0.7, 0.7)];
}

const isWgsLike = (text) => /\+a=63781(37|36|35)/.test(text);

/** Shifts that may be relied on: a guess that two datums are one is none, unless their bodies are as good as one. */
const reliable = (code, text) =>
  shiftsOf.get(code).filter(({ isBallpark }) => !isBallpark || isWgsLike(text));

/**
 * Worst distance from gdaltransform in degrees over the places, each with the shift chosen there, and of the way there and
 * back; NaN where the package cannot do it, null where no shift is known.
 */
const closeDeg = 1e-6;
const neighbourDeg = 1.2e-5;
const rimDeg = 2e-5;

async function disagreement(crs) {
  const list = reliable(crs.base, crs.text);
  const spots = [];
  for (const place of places(boxOf(crs) ?? [-180, -80, 180, 80])) {
    const chosen = choose(list, place);
    if (chosen === undefined) continue;
    const definition = `${crs.text}${chosen.shift.length ? ` +towgs84=${chosen.shift}` : ''} +no_defs`;
    try {
      const xy = proj4(definition).forward([...place]);
      spots.push({ place, xy, back: proj4(definition).inverse([...xy]) });
    } catch {
      return NaN;
    }
  }
  if (spots.length === 0) return null;
  if (!spots.every(({ xy }) => xy.every(Number.isFinite))) return NaN;
  const input = spots.map(({ xy }) => `${xy[0]} ${xy[1]}\n`).join('');
  const answer = (
    await run('gdaltransform', ['-s_srs', `EPSG:${crs.code}`, '-t_srs', 'EPSG:4326', '-output_xy'], input)
  )
    .trim()
    .split('\n');
  if (answer.length !== spots.length) return NaN;
  const apart = ([lng, lat], [lng2, lat2]) =>
    Math.max(
      Math.abs(((((lng - lng2 + 540) % 360) + 360) % 360) - 180) * Math.cos((lat * Math.PI) / 180),
      Math.abs(lat - lat2),
    );
  const off = spots.map(({ place, back }, i) =>
    Math.max(apart(back, place) / 2, apart(back, answer[i].split(' ').map(Number))),
  );
  // Where several shifts overlap GDAL may take another one: a metre or two, less than either is good for, is let pass.
  const worst = Math.max(...off);
  return worst < neighbourDeg || (off[0] < closeDeg && worst < rimDeg) ? 0 : worst;
}

console.error(`comparing ${tried.length} with gdaltransform`);
const verdicts = await each(tried, disagreement);
keepAnswers();

/** A datum's body and meridian are written once, in its geographic system. */
const ownPart = (text) => text.replace(/ \+(a|b|rf|pm)=\S+/g, '');
function addGeographic(code, text, box) {
  const shifts = reliable(code, text).map(({ shift, area, accuracy, isOffshore }) => [
    areas.add(area.map((n) => round(n, 2))),
    accuracy,
    Number(isOffshore),
    ...shift,
  ]);
  table.geographic[code] = [texts.add(text), box ? areas.add(box) : -1, ...shifts];
}
tried.forEach((crs, i) => {
  const worst = verdicts[i];
  if (worst === null) return dropped.shift.push(crs.code);
  if (!(worst < closeDeg)) return dropped.disagree.push([crs.code, worst, crs.text]);
  const box = boxOf(crs);
  if (crs.isGeographic) return addGeographic(crs.code, crs.text, box);
  const text = crs.text.includes('@null') ? crs.text : ownPart(crs.text);
  table.projected.push([crs.code, texts.add(text), box ? areas.add(box) : -1, crs.base]);
});
for (const [, , , base] of table.projected)
  if (!(base in table.geographic)) {
    const crs = geographic.find(({ code }) => code === base);
    addGeographic(base, bodyText(crs.text4, crs.json), boxOf(crs)); // in grads or not compared: as a base only
  }
table.projected.sort((a, b) => a[0] - b[0]);
table.projected = table.projected.filter((row, i, all) => row[0] !== all[i - 1]?.[0]);
let last = 0;
for (const row of table.projected) [row[0], last] = [row[0] - last, row[0]];
writeFileSync(out, JSON.stringify(table) + '\n');
writeUsual(table);
writeFileSync(join(tmpdir(), 'crs-dropped.json'), JSON.stringify(dropped, null, 1));
console.error(
  `kept ${table.projected.length} projected and ${Object.keys(table.geographic).length} geographic; left out`,
  Object.fromEntries(Object.entries(dropped).map(([why, list]) => [why, list.length])),
);
