import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { validateXML } from 'xmllint-wasm';
import type { LngLat } from '../../../src/core/domain/coordinates';
import type { Project } from '../../../src/core/domain/project';
import type { Plan } from '../../../src/core/domain/segment';
import { csv, number, text } from '../../../src/core/files/csv';
import { planGeoJson, tracksGeoJson } from '../../../src/core/files/geojson-write';
import { planGpx, tracksGpx } from '../../../src/core/files/gpx-write';
import { groundCsv, groundJson } from '../../../src/core/files/ground-write';
import { segmentsCsv, stationsCsv } from '../../../src/core/files/plan-csv';
import { planJson } from '../../../src/core/files/plan-json';
import { readTrackFile } from '../../../src/core/files/track-file';
import { distanceM } from '../../../src/core/line/geodesic';
import { sliceLine } from '../../../src/core/line/slice';
import { measureLine } from '../../../src/core/line/measured-line';
import { madeUpPlan, madeUpProfile, madeUpProject, positionAlong } from '../../app/fixture/made-up-plan';

const xsd = join(process.env['FIRNWARD_DATA'] ?? '/nowhere', '..', 'reference', 'gpx-1.1.xsd');

/** A line with heights and times, across the 180th meridian, and names with everything that markup fears. */
const nasty = `=1+1 <b>&"'\u0007 ]]> \u202e \ud83c\udfd4`;
const far: Project = {
  ...madeUpProject,
  line: {
    id: 'far',
    name: nasty,
    points: [
      { position: [179.99, 10], elevationM: 100.1234, timeMs: Date.UTC(2031, 4, 14, 4, 30, 0, 250) },
      { position: [180, 10.001], elevationM: null, timeMs: null },
      { position: [-179.987654321, 10.002], elevationM: 0, timeMs: Date.UTC(2031, 4, 14, 5) },
      { position: [-179.98, 10.01], elevationM: -3, timeMs: null },
    ],
  },
  marks: [
    {
      id: 'm1',
      kind: 'crevasse-crossing',
      positions: [[179.991, 10]],
      widthM: 4,
      bridge: 'poor',
      seenOn: '2031-05-01',
      note: nasty,
    },
    {
      id: 'm2',
      kind: 'cliff',
      positions: [
        [179.991, 10],
        [179.992, 10],
      ],
      widthM: null,
      bridge: null,
      seenOn: null,
      note: '',
    },
  ],
};

/** The made-up plan laid on another line, its lengths scaled. */
function planOn(project: Project): Plan {
  const line = measureLine(project.line.points.map(({ position }) => position));
  const plan = madeUpPlan(5);
  const scale = line.lengthM / plan.totals.lengthM;
  const at = (alongM: number): LngLat => line.at(alongM).position;
  return {
    ...plan,
    stations: plan.stations.map((each) => ({
      ...each,
      alongM: each.alongM * scale,
      position: at(each.alongM * scale),
    })),
    segments: plan.segments.map((segment) => ({
      ...segment,
      note: segment.id === 2 ? nasty : segment.note,
      fromM: segment.fromM * scale,
      toM: segment.toM * scale,
      pieces: segment.pieces.map((each) => ({
        ...each,
        alongM: each.alongM * scale,
        position: at(each.alongM * scale),
      })),
      gatherings: segment.gatherings.map((each) => ({
        ...each,
        alongM: each.alongM * scale,
        position: at(each.alongM * scale),
      })),
    })),
  };
}

const near: Project = {
  ...madeUpProject,
  line: {
    ...madeUpProject.line,
    points: [0, 310, 640, 1000, 1400, 1900].map((alongM) => ({
      position: positionAlong(alongM),
      elevationM: null,
      timeMs: null,
    })),
  },
};

const cases: readonly (readonly [string, Project, Plan])[] = [
  ['the made-up plan', near, planOn(near)],
  ['a line across the 180th meridian with nasty names', far, planOn(far)],
];

const bytes = (text: string) => new TextEncoder().encode(text);

function again(text: string, fileName: string) {
  const result = readTrackFile(bytes(text), fileName);
  if (!result.ok) throw new Error(`${result.problem.code} ${result.problem.place} ${result.problem.title}`);
  return result.value;
}

describe.each(cases)('%s', (_, project, plan) => {
  const points = project.line.points;

  test.skipIf(!existsSync(xsd))(
    'as GPX is valid by the GPX 1.1 schema (topografix.com/GPX/1/1)',
    async () => {
      const schema = [readFileSync(xsd, 'utf8')];
      for (const contents of [planGpx(project, plan), planGpx(project, null)]) {
        const result = await validateXML({ xml: [{ fileName: 'a.gpx', contents }], schema });
        expect(result.errors.map(({ rawMessage }) => rawMessage)).toEqual([]);
        expect(result.valid).toBe(true);
      }
    },
  );

  test('as GPX has one segment for each segment, meeting at its borders', () => {
    const gpx = planGpx(project, plan);
    expect(gpx.match(/<trkseg>/g)).toHaveLength(plan.segments.length);
    expect(gpx.match(/<fw:segment /g)).toHaveLength(plan.segments.length);
    expect(gpx).not.toContain('lon="180"');
    const outside = gpx.replaceAll(/<extensions>.*?<\/extensions>/g, '');
    expect(outside.replace(/xmlns:fw="[^"]*"/, '')).not.toContain('fw:');
  });

  test('X2 as GPX comes back as it was: positions to 1e-7 degrees, heights, times, names', () => {
    const file = again(planGpx(project, plan), 'a.gpx');
    expect(file.tracks).toHaveLength(1);
    // A control character cannot be written in XML 1.0 at all.
    expect(file.tracks[0]?.name).toBe(project.line.name.trim().replace('\u0007', '\ufffd'));
    expect(file.tracks[0]?.parts).toHaveLength(1);
    expect(file.notes.map(({ code }) => code)).not.toContain('GPX-017');
    const own = file.tracks[0]?.parts.flat() ?? [];
    expect(own).toHaveLength(points.length);
    own.forEach((each, i) => {
      const was = points[i]!;
      expect(distanceM(each.position, was.position)).toBeLessThan(0.001);
      expect(Math.abs(each.position[1] - was.position[1])).toBeLessThan(1e-7);
      expect(each.timeMs).toBe(was.timeMs);
      if (was.elevationM === null) expect(each.elevationM).toBeNull();
      else expect(each.elevationM).toBeCloseTo(was.elevationM, 3);
    });
    expect(file.waypoints).toHaveLength(
      project.marks.reduce((sum, { positions }) => sum + positions.length, 0),
    );
    const planned = plan.segments.reduce((sum, each) => sum + each.pieces.length + each.gatherings.length, 0);
    expect(file.notes.find(({ code }) => code === 'GPX-045')?.text).toContain(`${planned} `);
  });

  test('as GeoJSON is by RFC 7946: no part across the 180th meridian, longitude first, nothing out of range', () => {
    const value = JSON.parse(planGeoJson(project, plan)) as GeoJSON.FeatureCollection;
    expect(value.type).toBe('FeatureCollection');
    expect(value).not.toHaveProperty('crs');
    for (const { geometry } of value.features) {
      const lines =
        geometry.type === 'LineString'
          ? [geometry.coordinates]
          : geometry.type === 'MultiLineString'
            ? geometry.coordinates
            : [];
      for (const line of lines) {
        expect(line.length).toBeGreaterThan(1);
        line
          .slice(1)
          .forEach((position, i) => expect(Math.abs(position[0]! - line[i]![0]!)).toBeLessThanOrEqual(180));
      }
      for (const [lng, lat] of geometry.type === 'Point' ? [geometry.coordinates] : lines.flat()) {
        expect(Math.abs(lng!)).toBeLessThanOrEqual(180);
        expect(Math.abs(lat!)).toBeLessThanOrEqual(90);
      }
    }
  });

  test('as GeoJSON comes back as it was', () => {
    const file = again(planGeoJson(project, plan), 'a.geojson');
    expect(file.tracks).toHaveLength(1);
    const back = file.tracks[0]?.parts.flat() ?? [];
    // The 180th meridian splits the line: a point there stands on both sides.
    for (const was of points) {
      const same = back.filter(({ position }) => distanceM(position, was.position) < 0.001);
      expect(same.length).toBeGreaterThan(0);
      expect(same.some(({ timeMs }) => timeMs === was.timeMs)).toBe(true);
    }
    expect(file.tracks[0]?.name).toBe(project.line.name);
  });

  test('as CSV is read back by an independent reader, cell for cell', () => {
    const text = segmentsCsv({ plan });
    const { data, errors } = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true });
    expect(errors).toEqual([]);
    expect(data).toHaveLength(plan.segments.length);
    data.forEach((row, i) => {
      const segment = plan.segments[i]!;
      expect(Number(row['from_m'])).toBeCloseTo(segment.fromM, 3);
      expect(row['mode']).toBe(segment.mode);
      expect(row['slope_max_deg'] === '').toBe(segment.slopeMaxDeg === null);
      expect(row['time_default_s'] === '').toBe(segment.time === null);
      expect(row['note']).toBe(segment.note.startsWith('=') ? `'${segment.note}` : segment.note);
    });
    const stations = Papa.parse<Record<string, string>>(stationsCsv({ plan, project }), {
      header: true,
      skipEmptyLines: true,
    });
    expect(stations.errors).toEqual([]);
    expect(stations.data).toHaveLength(plan.stations.length);
    expect(
      stations.data.every(({ segment, mode }) => plan.segments[Number(segment) - 1]?.mode === mode),
    ).toBe(true);
  });

  test('X10 as JSON has every promised key, and null where nothing is known', () => {
    const text = planJson({ project, plan, terrain: madeUpProfile(plan).terrain, notes: [], matrix: null });
    const value = JSON.parse(text) as Record<string, never>;
    expect(Object.keys(value)).toEqual(
      expect.arrayContaining([
        'format',
        'version',
        'line',
        'stations',
        'segments',
        'totals',
        'matrix',
        'terrain',
        'warnings',
        'assumptions',
      ]),
    );
    const stations = value['stations'] as unknown as Record<string, unknown>[];
    expect(stations).toHaveLength(plan.stations.length);
    for (const key of [
      ...[
        'distanceM',
        'lon',
        'lat',
        'elevationM',
        'slopeDeg',
        'designSlopeDeg',
        'slopeSigmaDeg',
        'aspectDeg',
      ],
      ...['gradeDeg', 'betaDeg', 'runOut', 'mode', 'segment'],
    ])
      expect(stations[0]).toHaveProperty(key);
    const hole = stations.find(({ mode }) => mode === 'no-data');
    expect(hole).toMatchObject({ elevationM: null, slopeDeg: null, runOut: null });
    expect(text).not.toContain('NaN');
  });
});

describe('tracks as they were read', () => {
  const source =
    `<?xml version="1.0"?><gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1">
    <wpt lat="1.5" lon="2.5"><ele>7</ele><name>A &amp; B</name><desc>d</desc><sym>s</sym></wpt>
    <trk><name>one</name><trkseg><trkpt lat="1" lon="2"><ele>3.25</ele><time>2031-05-14T04:30:00.5Z</time></trkpt>
    <trkpt lat="1.000000123" lon="2"/></trkseg><trkseg><trkpt lat="1.1" lon="2"/><trkpt lat="1.2" lon="2"/></trkseg></trk>
    <rte><name>two</name><rtept lat="5" lon="179.9"/><rtept lat="5" lon="-179.9"/></rte></gpx>`
      .replaceAll(/\n\s*/g, '')
      .replace(/(<wpt.*?<\/wpt>)(<trk>.*<\/trk>)(<rte>.*<\/rte>)/, '$1$3$2');
  const file = again(source, 'source.gpx');

  test('as GPX', () => {
    const back = again(tracksGpx(file), 'b.gpx');
    expect(back.tracks).toEqual(file.tracks);
    expect(back.waypoints).toEqual(file.waypoints);
  });

  test('as GeoJSON', () => {
    const back = again(tracksGeoJson(file), 'b.geojson');
    expect(back.tracks[0]?.parts).toEqual(file.tracks[0]?.parts);
    expect(back.tracks[1]?.parts).toHaveLength(2);
    expect(back.waypoints).toEqual(file.waypoints);
  });
});

describe('what is rare in a plan', () => {
  const plan = planOn(near);

  test('segments too short to be told apart: the line is whole, none of it twice', () => {
    const [first, second, ...rest] = plan.segments;
    if (first === undefined || second === undefined) throw new Error('the made-up plan has segments');
    const tight = {
      ...plan,
      segments: [
        first,
        { ...second, fromM: first.toM, toM: first.toM },
        ...rest.map((each) => ({ ...each, fromM: first.toM })),
      ],
    };
    const fewer = sliceLine(
      near.line.points,
      tight.segments.slice(1).map(({ fromM }) => fromM),
    );
    const noSegments = { ...tight, segments: tight.segments.map((each) => ({ ...each, fromM: 0 })) };
    expect(fewer.length).toBeLessThanOrEqual(tight.segments.length);
    for (const odd of [tight, noSegments]) {
      const back = again(planGpx(near, odd), 'a.gpx').tracks[0]?.parts.flat() ?? [];
      expect(new Set(back.map(({ position }) => position.join())).size).toBe(near.line.points.length);
      expect(again(planGeoJson(near, odd), 'a.geojson').tracks[0]?.parts.flat()).toHaveLength(
        near.line.points.length,
      );
    }
  });

  test('segments that meet at a vertex of the line come back as one part, the vertex once', () => {
    const alongM = measureLine(near.line.points.map(({ position }) => position)).vertexAlongM;
    const [first, second] = plan.segments;
    if (first === undefined || second === undefined) throw new Error('the made-up plan has segments');
    const segments = [
      { ...first, toM: alongM[2]! },
      { ...second, fromM: alongM[2]! },
    ];
    const file = again(planGpx(near, { ...plan, segments }), 'a.gpx');
    expect(file.tracks[0]?.parts.map((part) => part.length)).toEqual([near.line.points.length]);
  });

  test('a line without points and a line without a name', () => {
    const empty: Project = { ...near, line: { id: 'x', name: '', points: [] }, marks: [] };
    expect(planGpx(empty, null)).not.toContain('<name>');
    expect(JSON.parse(planGeoJson(empty, null))).toEqual({ type: 'FeatureCollection', features: [] });
  });

  test("the guide's run-out class goes before the ground's, the last drawn before the others", () => {
    const ground = { class: 'injuring', ending: 'stops', maxSpeedMS: 9, lengthM: 80, dropM: 30 } as const;
    const all = { F: ground, '4F': ground, '1F': ground, P: ground, K: ground, I: ground };
    const rows = { ...plan, stations: plan.stations.map((each) => ({ ...each, runOut: all })) };
    const override = (fromM: number, toM: number, runOut: 'gentle' | 'deadly' | null) => ({
      id: `${fromM}`,
      way: 'both' as const,
      fromM,
      toM,
      runOut,
      mode: null,
      snow: null,
      note: '',
    });
    const project = {
      ...near,
      overrides: [override(0, 200, 'gentle'), override(100, 200, 'deadly'), override(0, 300, null)],
    };
    const { data } = Papa.parse<Record<string, string>>(stationsCsv({ plan: rows, project }), {
      header: true,
      skipEmptyLines: true,
    });
    const at = (alongM: number) => data.find((row) => Number(row['distance_m']) >= alongM)?.['run_out'];
    expect([at(50), at(150), at(250)]).toEqual(['gentle', 'deadly', 'injuring']);
  });

  test("the guide's run-out class on the way back, by distances from where that begins", () => {
    const set = { mode: null, snow: null, note: '' };
    const overrides = [
      { ...set, id: 'both', way: 'both' as const, fromM: 0, toM: 100, runOut: 'gentle' as const },
      { ...set, id: 'back', way: 'back' as const, fromM: 100, toM: 150, runOut: 'injuring' as const },
      { ...set, id: 'there', way: 'there' as const, fromM: 0, toM: 1e5, runOut: 'deadly' as const },
    ];
    const bare = { ...plan, stations: plan.stations.map((each) => ({ ...each, runOut: null })) };
    const { lengthM } = plan.totals;
    const classesBack = (wayBack: Project['schedule']['wayBack']) => {
      const project = { ...near, overrides, schedule: { ...near.schedule, wayBack } };
      const both = { ...bare, wayBack: bare };
      const text = planJson({ project, plan: both, terrain: [], notes: [], matrix: null });
      type Written = { wayBack: { stations: { distanceM: number; runOut: string | null }[] } };
      const { stations } = (JSON.parse(text) as Written).wayBack;
      return (fromM: number, toM: number) =>
        new Set(stations.filter((s) => s.distanceM > fromM && s.distanceM < toM).map((s) => s.runOut));
    };
    const same = classesBack('same-line');
    expect(same(lengthM - 99, lengthM)).toEqual(new Set(['gentle']));
    expect(same(lengthM - 149, lengthM - 101)).toEqual(new Set(['injuring']));
    expect(same(0, lengthM - 151)).toEqual(new Set([null]));
    const other = classesBack({ alternativeId: 'b' });
    expect(other(101, 149)).toEqual(new Set(['injuring']));
    expect(other(0, 99)).toEqual(new Set([null]));
  });

  test('the way back and the matrix are written too, a piece with its device', () => {
    const device = plan.segments.map((each) => ({
      ...each,
      pieces: each.pieces.map((piece) => ({ ...piece, captureDevice: true })),
    }));
    const both = { ...plan, segments: device, wayBack: plan };
    const matrix = {
      columns: [
        {
          hardness: 'K' as const,
          captureDevices: true,
          cells: [
            {
              segmentId: 1,
              mode: 'roped' as const,
              variant: null,
              parts: [{ fromM: 0, toM: 1.23456, mode: 'roped' as const, variant: null }],
            },
          ],
          totals: plan.totals,
        },
      ],
    };
    const note = { code: 'GPX-011', subject: 'a.gpx', text: 'GPX 1.0' };
    const value = JSON.parse(planJson({ project: near, plan: both, terrain: [], notes: [note], matrix })) as {
      wayBack: { stations: object[]; warnings: object[] };
      matrix: { columns: { cells: { parts: { toM: number }[] }[] }[] };
      warnings: { text: string }[];
    };
    expect(value.wayBack.stations).toHaveLength(plan.stations.length);
    expect(value.matrix.columns[0]?.cells[0]?.parts[0]?.toM).toBe(1.235);
    expect(value.warnings.at(-1)?.text).toBe('a.gpx: GPX 1.0');
    expect(planGpx(near, both)).toContain('with a capture device');
  });
});

test('parts of a single point are written as points, for no line can hold them', () => {
  const at = (lng: number) => ({ position: [lng, 46] as LngLat, elevationM: 5, timeMs: null });
  const tracks = [
    { name: 'a', kind: 'track' as const, parts: [[at(7)], [at(7.1), at(7.2)]] },
    { name: 'b', kind: 'route' as const, parts: [[at(8)], [at(9)]] },
  ];
  const back = again(tracksGeoJson({ tracks, waypoints: [] }), 'a.geojson');
  expect(back.tracks).toHaveLength(1);
  expect(back.waypoints.map(({ name, position }) => [name, position[0]])).toEqual([
    ['a', 7],
    ['b', 8],
    ['b', 9],
  ]);
  const gpx = again(tracksGpx({ tracks, waypoints: [] }), 'a.gpx');
  expect(gpx.tracks.map(({ parts }) => parts.length)).toEqual([2, 2]);
});

describe('CSV by RFC 4180', () => {
  /** RFC 4180, section 2, rules 5 to 7. */
  test('quotes, commas and line breaks', () => {
    expect(
      csv(
        ['a', 'b'],
        [
          ['b"b', 'x,y'],
          ['p\r\nq', null],
        ],
        (row) => row.map(text),
      ),
    ).toBe('a,b\r\n"b""b","x,y"\r\n"p\r\nq",\r\n');
  });

  test.each(['=1', '+1', '-1', '@x', '\tx', '＝1'])(
    'X1 text that starts with %j is made harmless',
    (formula) => {
      expect(csv(['t'], [formula], (row) => [text(row)])).toBe(`t\r\n'${formula}\r\n`);
    },
  );

  test('numbers are left as they are', () => {
    expect(csv(['n', 'm', 'o'], [0], () => [number(-5, 0), number(-0.00001, 3), number(null, 1)])).toBe(
      'n,m,o\r\n-5,0.000,\r\n',
    );
  });
});

describe('ground at points', () => {
  const positions: LngLat[] = [
    [-27.123456789, 51.2],
    [0, 0],
  ];
  const ground = [
    {
      elevationM: 1310.12345,
      slopeDeg: 30.00004,
      aspectDeg: 359.99999,
      curvaturePerM: -0.002,
    },
    { elevationM: null, slopeDeg: null, aspectDeg: null, curvaturePerM: null },
  ];

  test('as CSV: the same rows in the same order, empty where there is no data', () => {
    expect(groundCsv(positions, ground)).toBe(
      'lon,lat,elevation_m,slope_deg,aspect_deg,curvature_per_m\r\n' +
        '-27.123456789,51.200000000,1310.123,30.0000,360.0000,-0.00200000\r\n' +
        '0.000000000,0.000000000,,,,\r\n',
    );
  });

  test('as JSON: null where there is no data', () => {
    expect(JSON.parse(groundJson(positions, ground))).toMatchObject([
      { elevationM: 1310.123 },
      { elevationM: null, slopeDeg: null },
    ]);
  });
});
