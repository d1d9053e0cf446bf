/**
 * Makes the demo: the terrain raster, three tracks and the project that binds them. `node .scripts/make-demo.mjs`.
 * The place, the names and every figure are invented; the same seed gives the same files.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import proj4 from 'proj4';
import { extentM, heightAt } from './demo-mountain.mjs';
import { writeGeoTiff } from './geotiff-write.mjs';
import { randomFrom } from './noise.mjs';

const root = resolve(import.meta.dirname, '..');
const westM = 470000;
const southM = 4628000;
const cellM = 5;
const utm27South = '+proj=utm +zone=27 +south +datum=WGS84 +units=m +no_defs';
const lngLat = ([x, y]) => proj4(utm27South, 'WGS84', [westM + x, southM + y]);

const sidePx = extentM / cellM;
const heights = new Float32Array(sidePx * sidePx);
for (let row = 0; row < sidePx; row++)
  for (let col = 0; col < sidePx; col++) {
    const z = heightAt((col + 0.5) * cellM, extentM - (row + 0.5) * cellM);
    heights[row * sidePx + col] = Number.isNaN(z) ? -9999 : Math.round(z * 32) / 32; // 3 cm steps deflate well
  }
const terrain = writeGeoTiff({
  heights,
  widthPx: sidePx,
  heightPx: sidePx,
  cellM,
  westM,
  northM: southM + extentM,
  epsg: 32727,
  nodata: -9999,
});

/** The highest place on the main ridge at this easting. */
function crestAt(x) {
  let best = 2900;
  for (let y = 2900; y < 3400; y += 2) if (heightAt(x, y) > heightAt(x, best)) best = y;
  return [x, best];
}
const ridge = (fromX, toX) => {
  const crest = [];
  for (let x = fromX; x <= toX; x += 20) crest.push(crestAt(x));
  return straightened(crest, 3);
};

/** Leaves out points that lie within the tolerance of the straight leg past them. */
function straightened(points, withinM) {
  const kept = [points[0]];
  let from = 0;
  for (let to = 2; to < points.length; to++) {
    const off = ([x, y]) => {
      const [[ax, ay], [bx, by]] = [points[from], points[to]];
      return Math.abs((bx - ax) * (ay - y) - (ax - x) * (by - ay)) / Math.hypot(bx - ax, by - ay);
    };
    if (points.slice(from + 1, to).some((point) => off(point) > withinM)) kept.push(points[(from = to - 1)]);
  }
  return [...kept, points.at(-1)];
}

const glacier = [
  [2230, 180],
  [2205, 420],
  [2160, 700],
  [2120, 980],
  [2100, 1180],
  [2065, 1320],
  [2030, 1430],
  [1985, 1530],
  [1960, 1640],
  [1955, 1760],
  [1930, 1950],
  [1890, 2120],
];
/** From a camp below the roll to the shoulder on top of the ramp: short enough for its sheet to be one page. */
const normal = [
  [2185, 1290],
  [2185, 1320],
  [2170, 1430],
  [2145, 1530],
  [2080, 1640],
  [1955, 1760],
  [1930, 1950],
  [1890, 2120],
  [1740, 2170],
  [1622, 2222],
  [1550, 2400],
  [1550, 2560],
  [1550, 2700],
  [1560, 2830],
  [1580, 2950],
];
const steep = [
  ...glacier,
  [1960, 2300],
  [2020, 2460],
  [2050, 2600],
  [2064, 2700],
  [2066, 2780],
  [2070, 2880],
  [2072, 2960],
  [2070, 3020],
  crestAt(2070),
  ...ridge(2110, 3060),
];

/** Points every few metres along straight legs. */
function densify(points, everyM) {
  const out = [points[0]];
  for (let i = 1; i < points.length; i++) {
    const [x0, y0] = points[i - 1];
    const [x1, y1] = points[i];
    const n = Math.max(1, Math.round(Math.hypot(x1 - x0, y1 - y0) / everyM));
    for (let k = 1; k <= n; k++) out.push([x0 + ((x1 - x0) * k) / n, y0 + ((y1 - y0) * k) / n]);
  }
  return out;
}

/** A recorder's track: wandering positions, drifting heights, stops, a lost stretch. */
function recorded(points) {
  const random = randomFrom(4711);
  const gauss = () => random() + random() + random() + random() - 2;
  let [dx, dy, dz] = [0, 0, 0];
  let timeMs = Date.UTC(2026, 0, 17, 3, 6, 0);
  const out = [];
  let last = points[0];
  for (const point of densify(points, 7)) {
    dx = 0.9 * dx + 1.3 * gauss();
    dy = 0.9 * dy + 1.3 * gauss();
    dz = 0.97 * dz + 1.1 * gauss();
    const stepM = Math.hypot(point[0] - last[0], point[1] - last[1]);
    const rise = Math.abs(heightAt(...point) - heightAt(...last));
    const belayedS = rise > 0.4 * stepM ? 33 * stepM : 0;
    timeMs += Math.round(
      1000 * (stepM / 0.75 + rise * 9 + belayedS + (random() < 0.012 ? 400 * random() : 0)),
    );
    last = point;
    out.push({ at: [point[0] + dx, point[1] + dy], elevationM: heightAt(...point) + 6 + dz, timeMs });
  }
  return out;
}

const point = ({ at, elevationM, timeMs }) => {
  const [lon, lat] = lngLat(at);
  const ele = elevationM === undefined ? '' : `<ele>${elevationM.toFixed(1)}</ele>`;
  const time =
    timeMs === undefined ? '' : `<time>${new Date(timeMs).toISOString().replace('.000', '')}</time>`;
  return `   <trkpt lat="${lat.toFixed(7)}" lon="${lon.toFixed(7)}">${ele}${time}</trkpt>`;
};
const gpx = (name, points) => `<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="Firnward demo" xmlns="http://www.topografix.com/GPX/1/1">
 <metadata><name>${name}</name><desc>Invented island, invented mountain. For trying the tool out.</desc></metadata>
 <trk>
  <name>${name}</name>
  <trkseg>
${points.map(point).join('\n')}
  </trkseg>
 </trk>
</gpx>
`;

const tracks = {
  'ombry-normal-route.gpx': gpx(
    'Mount Ombry, by the west ramp',
    normal.map((at) => ({ at })),
  ),
  'ombry-headwall.gpx': gpx(
    'Mount Ombry, by the headwall',
    steep.map((at) => ({ at })),
  ),
  'ombry-recorded-day.gpx': gpx('Mount Ombry, recorded', recorded(normal)),
};

const onLine = (at) => lngLat(at).map((deg) => Number(deg.toFixed(7)));
const mark = (id, kind, at, more) => ({
  id,
  kind,
  positions: [onLine(at)],
  widthM: null,
  bridge: null,
  seenOn: null,
  note: '',
  ...more,
});
const project = {
  format: 'firnward-project',
  version: 1,
  name: 'Mount Ombry, by the west ramp',
  line: {
    id: 'normal-route',
    name: 'Mount Ombry, by the west ramp',
    points: normal.map((at) => ({ position: onLine(at), elevationM: null, timeMs: null })),
  },
  alternatives: [
    {
      id: 'headwall',
      name: 'Mount Ombry, by the headwall',
      points: steep.map((at) => ({ position: onLine(at), elevationM: null, timeMs: null })),
    },
  ],
  marks: [
    mark('roll-crossing', 'crevasse-crossing', [2127.3, 1560], {
      widthM: 6,
      bridge: 'doubtful',
      seenOn: '2026-01-15',
      note: 'Sagging in the middle',
    }),
    mark('schrund-crossing', 'crevasse-crossing', [1693.5, 2190.5], {
      widthM: 8,
      bridge: 'solid',
      seenOn: '2026-01-15',
      note: 'Bergschrund, filled at the west end',
    }),
  ],
  party: {
    climbers: [
      { name: 'Ada', massKg: 74, ability: 'expert', mayLead: true },
      { name: 'Bo', massKg: 86, ability: 'solid', mayLead: false },
      { name: 'Cy', massKg: 80, ability: 'solid', mayLead: true },
    ],
    rope: { lengthM: 60, intervalM: 12, impactForceKN: 9, staticElongationPct: 8, brakeKnots: false },
    rack: { pickets: 10, captureDevices: 8 },
  },
  snow: { hardness: 'P', wetness: 'D' },
  schedule: {
    start: '2026-01-17T04:00',
    zone: 'Etc/GMT+1',
    backBy: '2026-01-17T18:00',
    wayBack: 'same-line',
  },
  terrain: [{ fileName: 'ombry-terrain.tif', surveyed: '2024', sigmaZM: 0.25 }],
  notes: 'The island, the mountain and the team are invented.',
};

mkdirSync(resolve(root, 'public/demo'), { recursive: true });
mkdirSync(resolve(root, 'sample-tracks'), { recursive: true });
for (const [name, text] of Object.entries(tracks)) writeFileSync(resolve(root, 'sample-tracks', name), text);
writeFileSync(resolve(root, 'public/demo/ombry-terrain.tif'), terrain);
writeFileSync(resolve(root, 'public/demo/ombry.firnward.json'), JSON.stringify(project, null, 1) + '\n');
console.error(`terrain ${(terrain.length / 1e6).toFixed(2)} MB, ${Object.keys(tracks).length} tracks`);
