// Writes src/core/files/raster/crs/usual.json: those systems of the table beside it in which most rasters come, so that few
// readers wait for all of it. `make-crs-table.mjs` calls this; alone, from the table that is there:
//   node .scripts/usual-systems.mjs
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const folder = new URL('../src/core/files/raster/crs/', import.meta.url);

/** WGS 84, ETRS89 and NAD83, each in degrees and by UTM zones, and web Mercator. */
const isUsual = (code) =>
  [4326, 4258, 4269, 3857].includes(code) ||
  [
    [32601, 32660],
    [32701, 32760],
    [25828, 25838],
    [26901, 26923],
  ].some(([from, to]) => code >= from && code <= to);

/** Distinct values, by index. */
export function pool() {
  const index = new Map();
  const list = [];
  return {
    list,
    add(value) {
      const key = JSON.stringify(value);
      if (!index.has(key)) index.set(key, list.push(value) - 1);
      return index.get(key);
    },
  };
}

export function writeUsual(table) {
  const texts = pool();
  const areas = pool();
  const textOf = (index) => texts.add(table.texts[index]);
  const areaOf = (index) => (index < 0 ? index : areas.add(table.areas[index]));
  const projected = [];
  let [code, last] = [0, 0];
  for (const [step, text, area, base] of table.projected) {
    code += step;
    if (!isUsual(code)) continue;
    projected.push([code - last, textOf(text), areaOf(area), base]);
    last = code;
  }
  const bases = new Set(projected.map(([, , , base]) => base));
  const geographic = Object.fromEntries(
    Object.entries(table.geographic)
      .filter(([own]) => isUsual(Number(own)) || bases.has(Number(own)))
      .map(([own, [text, area, ...shifts]]) => [
        own,
        [textOf(text), areaOf(area), ...shifts.map(([box, ...shift]) => [areaOf(box), ...shift])],
      ]),
  );
  const usual = { made: table.made, texts: texts.list, areas: areas.list, geographic, projected };
  writeFileSync(new URL('usual.json', folder), `${JSON.stringify(usual)}\n`);
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  writeUsual(JSON.parse(readFileSync(new URL('table.json', folder), 'utf8')));
