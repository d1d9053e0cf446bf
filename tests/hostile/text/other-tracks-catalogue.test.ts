import { expect, test } from 'vitest';
import { problemLine } from '../../../src/core/domain/problem';
import type { TrackFile } from '../../../src/core/domain/track';
import { readTrackFile } from '../../../src/core/files/track-file';

interface Row {
  readonly row: string;
  readonly name: string;
  readonly input: string;
  readonly refused?: string;
  readonly place?: RegExp;
  readonly notes?: readonly string[];
  readonly holds?: (file: TrackFile) => void;
}

const kml = (inside: string) =>
  `<?xml version="1.0"?><kml xmlns="http://www.opengis.net/kml/2.2"><Document>${inside}</Document></kml>`;
const path = (coordinates: string, more = '') =>
  `<Placemark><name>p</name><LineString>${more}<coordinates>${coordinates}</coordinates></LineString></Placemark>`;
const geo = (value: unknown) => JSON.stringify(value);
const line = (coordinates: unknown, properties: unknown = null) =>
  geo({ type: 'Feature', properties, geometry: { type: 'LineString', coordinates } });
const points = (file: TrackFile) => file.tracks.flatMap(({ parts }) => parts.flat());

const rows: readonly Row[] = [
  {
    row: 'KML line',
    name: 'a.kml',
    input: kml(path('7,46,0 7.1,46.1,0')),
    notes: ['KML-028'],
    holds: (file) => expect(points(file).map(({ elevationM }) => elevationM)).toEqual([null, null]),
  },
  {
    row: 'KML absolute heights',
    name: 'a.kml',
    input: kml(path('7,46,100\n 7.1,46.1,200', '<altitudeMode>absolute</altitudeMode>')),
    holds: (file) => expect(points(file).map(({ elevationM }) => elevationM)).toEqual([100, 200]),
  },
  {
    row: 'KML of several parts and a point',
    name: 'a.kml',
    input: kml(
      `<Placemark><MultiGeometry><LineString><coordinates>7,46 7,47</coordinates></LineString><LineString><coordinates>8,46 8,47</coordinates></LineString></MultiGeometry></Placemark><Placemark><name>w</name><Point><coordinates>7,46</coordinates></Point></Placemark>`,
    ),
    notes: ['KML-017'],
    holds: (file) => {
      expect(file.tracks[0]?.parts).toHaveLength(2);
      expect(file.waypoints[0]?.name).toBe('w');
    },
  },
  {
    row: 'KML areas',
    name: 'a.kml',
    input: kml(
      path('7,46 7,47') +
        '<Placemark><Polygon><outerBoundaryIs><LinearRing><coordinates>0,0 1,0 1,1 0,0</coordinates></LinearRing></outerBoundaryIs></Polygon></Placemark>',
    ),
    notes: ['KML-044'],
    holds: (file) => expect(points(file)).toHaveLength(2),
  },
  {
    row: 'KML decimal commas',
    name: 'a.kml',
    input: kml(path('7,5,46,5')),
    refused: 'KML-020',
    place: /point 1/,
  },
  { row: 'KML one number', name: 'a.kml', input: kml(path('7 46')), refused: 'KML-019' },
  { row: 'KML latitude first by mistake', name: 'a.kml', input: kml(path('46,107')), refused: 'KML-022' },
  { row: 'KML cut off', name: 'a.kml', input: kml(path('7,46 7.1,46.1')).slice(0, -6), refused: 'KML-004' },
  { row: 'KML without a line', name: 'a.kml', input: kml(''), refused: 'KML-040' },
  {
    row: 'KML a shape inside a shape',
    name: 'a.kml',
    input: kml('<Placemark><Point><coordinates>7,46</coordinates><LineString/></Point></Placemark>'),
    refused: 'KML-041',
  },
  {
    row: 'KML a placemark inside a placemark',
    name: 'a.kml',
    input: kml('<Placemark><name>a</name><Placemark/></Placemark>'),
    refused: 'KML-041',
  },
  {
    row: 'KML a shape outside of all placemarks',
    name: 'a.kml',
    input: kml('<LineString><coordinates>7,46 7,47</coordinates></LineString>'),
    refused: 'KML-041',
  },
  { row: 'KML with a document type', name: 'a.kml', input: '<!DOCTYPE kml><kml/>', refused: 'KML-005' },
  { row: 'KMZ', name: 'a.kml', input: 'PK\u0003\u0004xxxxxxxx', refused: 'KML-012' },
  { row: 'GPX under this name', name: 'a.kml', input: '<gpx/>', refused: 'KML-012' },
  {
    row: 'by content where the name says nothing',
    name: 'a.xml',
    input: kml(path('7,46 7.1,46.1')),
    holds: (file) => expect(points(file)).toHaveLength(2),
  },

  {
    row: 'GeoJSON line',
    name: 'a.geojson',
    input: line(
      [
        [7, 46, 5],
        [7.1, 46.1],
      ],
      { name: 'n' },
    ),
    notes: ['GEO-028'],
    holds: (file) => {
      expect(file.tracks[0]?.name).toBe('n');
      expect(points(file)[0]?.elevationM).toBe(5);
    },
  },
  {
    row: 'GeoJSON times',
    name: 'a.json',
    input: line(
      [
        [7, 46],
        [7, 47],
      ],
      { coordTimes: ['2031-01-01T00:00:00Z', '2031-01-01T01:00:00Z'] },
    ),
    holds: (file) => expect(points(file)[1]?.timeMs).toBe(Date.UTC(2031, 0, 1, 1)),
  },
  {
    row: 'GeoJSON times that are one short',
    name: 'a.json',
    input: line(
      [
        [7, 46],
        [7, 47],
      ],
      { coordTimes: ['2031-01-01T00:00:00Z'] },
    ),
    notes: ['GEO-032'],
    holds: (file) => expect(points(file).every(({ timeMs }) => timeMs === null)).toBe(true),
  },
  {
    row: 'GeoJSON collection of geometries',
    name: 'a.geojson',
    input: geo({
      type: 'GeometryCollection',
      geometries: [
        {
          type: 'MultiLineString',
          coordinates: [
            [
              [7, 46],
              [7, 47],
            ],
            [
              [8, 46],
              [8, 47],
            ],
          ],
        },
        { type: 'Point', coordinates: [1, 2] },
        { type: 'Polygon', coordinates: [] },
      ],
    }),
    notes: ['GEO-017', 'GEO-044'],
    holds: (file) => expect(file.waypoints).toHaveLength(1),
  },
  {
    row: 'GeoJSON text for a number',
    name: 'a.geojson',
    input: line([['7', 46]]),
    refused: 'GEO-019',
    place: /^\/geometry\/coordinates\/0$/,
  },
  { row: 'GeoJSON null for a number', name: 'a.geojson', input: line([[null, 46]]), refused: 'GEO-019' },
  { row: 'GeoJSON a position of one number', name: 'a.geojson', input: line([[7]]), refused: 'GEO-019' },
  {
    row: 'GeoJSON in another system',
    name: 'a.geojson',
    input: geo({
      type: 'FeatureCollection',
      crs: { type: 'name', properties: { name: 'urn:ogc:def:crs:EPSG::2056' } },
      features: [],
    }),
    refused: 'GEO-043',
    place: /crs/,
  },
  { row: 'GeoJSON latitude 91', name: 'a.geojson', input: line([[7, 91]]), refused: 'GEO-022' },
  {
    row: 'GeoJSON without a line',
    name: 'a.geojson',
    input: geo({ type: 'FeatureCollection', features: [] }),
    refused: 'GEO-040',
  },
  { row: 'JSON of another program', name: 'a.json', input: '{"a":1}', refused: 'GEO-006' },
  {
    row: 'GeoJSON cut off',
    name: 'a.geojson',
    input: line([
      [7, 46],
      [7, 47],
    ]).slice(0, -3),
    refused: 'GEO-001',
    place: /line 1, column \d+/,
  },
  {
    row: 'GeoJSON a key twice',
    name: 'a.geojson',
    input: '{"type":"Point","type":"Point","coordinates":[1,2]}',
    refused: 'GEO-009',
  },
  {
    row: 'GeoJSON a number too large',
    name: 'a.geojson',
    input: '{"type":"Point","coordinates":[1e999,2]}',
    refused: 'GEO-007',
  },
  {
    row: 'GeoJSON a forbidden key',
    name: 'a.geojson',
    input: '{"type":"Point","coordinates":[1,2],"__proto__":{}}',
    refused: 'GEO-008',
  },
  { row: 'GeoJSON nested very deep', name: 'a.geojson', input: '['.repeat(100_000), refused: 'GEO-010' },
  { row: 'GeoJSON empty', name: 'a.geojson', input: '', refused: 'GEO-001' },
  { row: 'GeoJSON a web page', name: 'a.geojson', input: '<html></html>', refused: 'GEO-002' },
  {
    row: 'KML coordinates twice',
    name: 'a.kml',
    input: kml(
      '<Placemark><LineString><coordinates>7,46</coordinates><coordinates>8,46</coordinates></LineString></Placemark>',
    ),
    refused: 'KML-042',
  },
  {
    row: 'KML an element in coordinates',
    name: 'a.kml',
    input: kml('<Placemark><LineString><coordinates>7,46<b/></coordinates></LineString></Placemark>'),
    refused: 'KML-042',
  },
  {
    row: 'KML a shape without coordinates',
    name: 'a.kml',
    input: kml(`<Placemark><LineString/></Placemark>${path('7,46 7,47')}`),
    holds: (file) => expect(file.tracks).toHaveLength(1),
  },
  {
    row: 'KML no name',
    name: 'a.kml',
    input: kml('<Placemark><Point><coordinates>7,46</coordinates></Point></Placemark>'),
    holds: (file) => expect(file.waypoints[0]?.name).toBe(''),
  },
  { row: 'KML another root', name: 'a.kml', input: '<svg/>', refused: 'KML-012' },
  {
    row: 'GeoJSON a feature without geometry',
    name: 'a.geojson',
    input: geo({
      type: 'FeatureCollection',
      features: [
        { type: 'Feature', properties: null, geometry: null },
        {
          type: 'Feature',
          properties: null,
          geometry: {
            type: 'MultiPoint',
            coordinates: [
              [1, 2],
              [3, 4, null],
            ],
          },
        },
      ],
    }),
    notes: ['GEO-015'],
    holds: (file) => expect(file.waypoints.map(({ elevationM }) => elevationM)).toEqual([null, null]),
  },
  {
    row: 'GeoJSON a feature that is a list',
    name: 'a.geojson',
    input: geo({ type: 'FeatureCollection', features: [[]] }),
    refused: 'GEO-006',
    place: /^\/features\/0$/,
  },
  {
    row: 'GeoJSON features that are no list',
    name: 'a.geojson',
    input: geo({ type: 'FeatureCollection', features: {} }),
    refused: 'GEO-006',
    place: /^\/features$/,
  },
  {
    row: 'GeoJSON a geometry that is a number',
    name: 'a.geojson',
    input: geo({ type: 'Feature', geometry: 5 }),
    refused: 'GEO-006',
    place: /^\/geometry$/,
  },
  {
    row: 'GeoJSON a kind nobody knows',
    name: 'a.geojson',
    input: geo({ type: 'Curve' }),
    refused: 'GEO-006',
    place: /^\/type$/,
  },
  { row: 'GeoJSON a bare list', name: 'a.geojson', input: '[1]', refused: 'GEO-006', place: /top level/ },
  {
    row: 'GeoJSON WGS 84 said the old way',
    name: 'a.geojson',
    input: geo({
      type: 'LineString',
      coordinates: [
        [7, 46],
        [7, 47],
      ],
      crs: { type: 'name', properties: { name: 'urn:ogc:def:crs:OGC:1.3:CRS84' } },
    }),
    holds: (file) => expect(points(file)).toHaveLength(2),
  },
  {
    row: 'GeoJSON a system without a name',
    name: 'a.geojson',
    input: geo({
      type: 'LineString',
      coordinates: [
        [7, 46],
        [7, 47],
      ],
      crs: 5,
    }),
    refused: 'GEO-043',
  },
  {
    row: 'GeoJSON a system of null',
    name: 'a.geojson',
    input: geo({
      type: 'LineString',
      coordinates: [
        [7, 46],
        [7, 47],
      ],
      crs: null,
    }),
    holds: (file) => expect(points(file)).toHaveLength(2),
  },
  {
    row: 'GeoJSON times of parts, one of them a number',
    name: 'a.geojson',
    input: geo({
      type: 'Feature',
      properties: {
        coordinateProperties: {
          times: [
            ['2031-01-01T00:00:00Z', 5],
            ['2031-01-01T00:00:00Z', null],
          ],
        },
      },
      geometry: {
        type: 'MultiLineString',
        coordinates: [
          [
            [7, 46],
            [7, 47],
          ],
          [
            [8, 46],
            [8, 47],
          ],
        ],
      },
    }),
    holds: (file) =>
      expect(points(file).map(({ timeMs }) => timeMs !== null)).toEqual([true, false, true, false]),
  },
  {
    row: 'GeoJSON times of parts that are no lists',
    name: 'a.geojson',
    input: geo({
      type: 'Feature',
      properties: { coordTimes: [1, 2] },
      geometry: {
        type: 'MultiLineString',
        coordinates: [
          [
            [7, 46],
            [7, 47],
          ],
          [
            [8, 46],
            [8, 47],
          ],
        ],
      },
    }),
    notes: ['GEO-032'],
  },
  {
    row: 'GeoJSON longitudes from 0 to 360',
    name: 'a.geojson',
    input: line([[200, 46]]),
    refused: 'GEO-023',
    place: /^\/geometry\/coordinates\/0$/,
  },
  {
    row: 'GeoJSON a height out of this world',
    name: 'a.geojson',
    input: line([[7, 46, 1e7]]),
    refused: 'GEO-029',
  },
  {
    row: 'XML of no known kind, by a name that says nothing',
    name: 'a.xml',
    input: '<svg/>',
    refused: 'GPX-012',
  },
];

test.each(rows)('$row', (row) => {
  const result = readTrackFile(new TextEncoder().encode(row.input), row.name);
  if (row.refused !== undefined) {
    if (result.ok) throw new Error('it was opened');
    expect(result.problem.code).toBe(row.refused);
    expect(problemLine(result.problem)).not.toMatch(/undefined|\n/);
    if (row.place) expect(result.problem.place).toMatch(row.place);
    return;
  }
  if (!result.ok) throw new Error(problemLine(result.problem));
  expect(result.value.notes.map(({ code }) => code)).toEqual(expect.arrayContaining([...(row.notes ?? [])]));
  row.holds?.(result.value);
});
