import { deflateRawSync } from 'node:zlib';
import type { Project } from '../../src/core/domain/project';
import { planGeoJson, tracksGeoJson } from '../../src/core/files/geojson-write';
import { planGpx, tracksGpx } from '../../src/core/files/gpx-write';
import { defaultProject, readProject, writeProject } from '../../src/core/files/project';
import { readTrackFile } from '../../src/core/files/track-file';

/** Small whole files to start from: what the tool writes, and what others write. */

const point = (lng: number, lat: number, elevationM: number | null, timeMs: number | null = null) => ({
  position: [lng, lat] as [number, number],
  elevationM,
  timeMs,
});

const project: Project = {
  ...defaultProject(),
  name: 'North spur',
  line: {
    id: 'line-1',
    name: 'Up & down',
    points: [
      point(-27.4, 51.2, 1310),
      point(-27.399, 51.201, null, Date.UTC(2031, 4, 14, 4)),
      point(179.99, 51.3, -2.5),
    ],
  },
  marks: [
    {
      id: 'a',
      kind: 'crevasse-crossing',
      positions: [[-27.4, 51.2]],
      widthM: 4,
      bridge: 'poor',
      seenOn: '2031-05-01',
      note: 'n',
    },
  ],
  overrides: [
    {
      id: 'o',
      way: 'back',
      fromM: 10,
      toM: 50.5,
      mode: 'running-belay',
      snow: { hardness: 'K', wetness: 'M' },
      runOut: 'deadly',
      note: '',
    },
  ],
  assumptions: { 'rule.noneAboveDeg': 55 },
  schedule: {
    start: '2031-05-14T04:30',
    zone: 'UTC',
    backBy: null,
    snowChanges: [{ fromM: 0, toM: 100, at: '09:30', snow: { hardness: '1F', wetness: 'W' } }],
    declinationDeg: -14.5,
    wayBack: 'same-line',
  },
  terrain: [
    {
      fileName: 'a.tif',
      checksum: null,
      crs: 'EPSG:32632',
      elevationUnit: 'm',
      surveyed: '2030',
      sigmaZM: 0.5,
    },
  ],
};

const foreignGpx = `<?xml version='1.0' encoding='UTF-8'?>
<!-- made elsewhere -->
<gpx version="1.0" creator='x' xmlns="http://www.topografix.com/GPX/1/0" xmlns:q="urn:q">
<wpt lat="46.5" lon="7.25"><ele>1800.5</ele><name><![CDATA[Hut <1>]]></name><desc>d&#xe9;j&#224;</desc></wpt>
<rte><name>R</name><rtept lat="46" lon="7"/><rtept lon='7.001' lat='46.001'><ele> 12 </ele></rtept></rte>
<trk><name>T</name><trkseg><trkpt lat="46.1" lon="-7.1"><ele>0</ele><time>2031-05-14T04:30:00Z</time><q:hr>120</q:hr></trkpt>
<trkpt lat="-46.2" lon="7.2"><ele>-3.25</ele><time>2031-05-14T06:30:00.5+02:00</time></trkpt></trkseg>
<trkseg/><trkseg><trkpt lat="46.3" lon="7.3"/></trkseg></trk></gpx>`;

const kml = `<?xml version="1.0" encoding="UTF-8"?>
<kml xmlns="http://www.opengis.net/kml/2.2"><Document><name>doc</name>
<Placemark><name>Path</name><description>d</description><LineString><altitudeMode>absolute</altitudeMode>
<coordinates> 7.1,46.1,1500 7.2,46.2,1600.5
 7.3,46.3,1700 </coordinates></LineString></Placemark>
<Folder><Placemark><name>Two</name><MultiGeometry><LineString><coordinates>7,46 8,47</coordinates></LineString>
<LineString><coordinates>9,48,0 -9.5,-48.5,0</coordinates></LineString></MultiGeometry></Placemark></Folder>
<Placemark><Point><coordinates>7.5,46.5,10</coordinates></Point></Placemark>
</Document></kml>`;

const geoJson = JSON.stringify({
  type: 'FeatureCollection',
  features: [
    {
      type: 'Feature',
      properties: { name: 'L', coordTimes: ['2031-01-01T00:00:00Z', '2031-01-01T01:00:00Z'] },
      geometry: {
        type: 'LineString',
        coordinates: [
          [7, 46, 5],
          [7.001, 46.001],
        ],
      },
    },
    { type: 'Feature', properties: null, geometry: { type: 'Point', coordinates: [7, 46] } },
    {
      type: 'Feature',
      properties: {},
      geometry: {
        type: 'MultiLineString',
        coordinates: [
          [
            [1, 2],
            [3, 4],
          ],
          [
            [5, 6, 7],
            [8, 9],
          ],
        ],
      },
    },
  ],
});

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);

const read = readTrackFile(encode(foreignGpx), 'seed.gpx');
if (!read.ok) throw new Error(read.problem.title);

export const textKinds = ['gpx', 'kml', 'geojson', 'project', 'points', 'arguments', 'link'] as const;
export type TextKind = (typeof textKinds)[number];

const written = writeProject(project);
const compact = JSON.stringify(JSON.parse(written));

export const seeds: Readonly<Record<TextKind, readonly Uint8Array[]>> = {
  gpx: [
    planGpx(project, null),
    tracksGpx(read.value),
    foreignGpx,
    foreignGpx.replaceAll(/<(\/?)(gpx|trk|rte|wpt|ele|name|time)/g, '<$1g:$2').replace('xmlns=', 'xmlns:g='),
  ].map(encode),
  kml: [encode(kml), encode(kml.replaceAll('\n', '').replaceAll('absolute', 'clampToGround'))],
  geojson: [planGeoJson(project, null), tracksGeoJson(read.value), geoJson].map(encode),
  project: [
    written,
    compact,
    '{"format":"firnward-project","version":1,"line":[[1,2],[3,4,5]],"snow":"K","x":{"y":[1]}}',
  ].map(encode),
  points: [
    'lon,lat\n7.1,46.2\n-7.25,46\n',
    'name,LAT, lon\r\n"a, ""b""",46.5,7\r\n"line\nbreak",-46.5,-179.999\r\n,0,0\r\n',
    'lon,lat,elevation\r1e1,.5,\r\r+3.,-4,x',
  ].map(encode),
  link: [compact, '{"format":"firnward-project","version":1}'].map((text) =>
    encode(`#plan=1.${deflateRawSync(text).toString('base64url')}`),
  ),
  arguments: [
    ['--line', 'a.gpx', '--elevation', 'b.tif', 'c.tif', '--step', '5', '--json'],
    ['--elevation=b.tif', 'c d.tif', '--line=x=y.gpx', '--elevation', '-', '--step=2.5'],
    ['--track', '2', '--crs', 'EPSG:32632', '--elevation-unit', 'm', '--out', '-'],
  ].map((words) => encode(words.join('\n'))),
};

for (const bytes of seeds.project) {
  const result = readProject(new TextDecoder().decode(bytes), 'seed');
  if (!result.ok) throw new Error(`a seed is no project: ${result.problem.title}`);
}
