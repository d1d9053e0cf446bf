import { describe, expect, test } from 'vitest';
import { problemLine } from '../../../src/core/domain/problem';
import type { LinePoint } from '../../../src/core/domain/project';
import type { TrackFile } from '../../../src/core/domain/track';
import { chooseTrack } from '../../../src/core/files/choose-track';
import { tracksGpx } from '../../../src/core/files/gpx-write';
import { readTrackFile, type Answers } from '../../../src/core/files/track-file';
import { lineFromTrack } from '../../../src/core/line/from-track';
import {
  heightsFromFeet,
  isSameLine,
  looksSwapped,
  lookOfHeights,
  swapLngLat,
} from '../../../src/core/line/track-against-ground';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

const head =
  '<?xml version="1.0" encoding="UTF-8"?><gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1">';
const trk = (...points: string[]) => `<trk><name>t</name><trkseg>${points.join('')}</trkseg></trk>`;
const pt = (lat: string | number, lon: string | number, inside = '') =>
  `<trkpt lat="${lat}" lon="${lon}">${inside}</trkpt>`;
const gpx = (...inside: string[]) => `${head}${inside.join('')}</gpx>`;
const sixty = Array.from({ length: 60 }, (_, i) => pt((46 + i / 1000).toFixed(3), '7.000'));

interface Row {
  readonly row: string;
  readonly input: Uint8Array | string;
  readonly fileName?: string;
  readonly answers?: Answers;
  /** Code of the problem; it must name its place unless the whole file is meant. */
  readonly refused?: string;
  readonly place?: RegExp;
  readonly title?: RegExp;
  /** The choice that would settle it. */
  readonly asks?: 'yes-no' | 'track';
  /** Codes of notes that must be there. */
  readonly notes?: readonly string[];
  readonly holds?: (file: TrackFile) => void;
}

const points = (file: TrackFile) => file.tracks.flatMap(({ parts }) => parts.flat());
const encode16 = (text: string, little: boolean): Uint8Array => {
  const out = new Uint8Array(2 + 2 * text.length);
  const view = new DataView(out.buffer);
  view.setUint16(0, 0xfeff, little);
  for (let i = 0; i < text.length; i++) view.setUint16(2 + 2 * i, text.charCodeAt(i), little);
  return out;
};
const joined = (...parts: (Uint8Array | string)[]): Uint8Array => {
  const all = parts.map((part) => (typeof part === 'string' ? bytes(part) : part));
  return Uint8Array.from(all.flatMap((part) => [...part]));
};

const two = [pt(46, 7), pt(46.001, 7)] as const;
const nested = (depth: number) =>
  gpx(`<extensions>${'<a>'.repeat(depth)}${'</a>'.repeat(depth)}</extensions>`, trk(...two));
const bomb = `<?xml version="1.0"?><!DOCTYPE gpx [<!ENTITY a "aaaaaaaaaa">${'<!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;">'.repeat(3)}]>${gpx(trk(...two)).replace(/<\?.*?\?>/, '')}`;

const rows: readonly Row[] = [
  { row: 'G1 empty file', input: '', refused: 'GPX-001', title: /empty \(0 bytes\)/ },
  { row: 'G1 only spaces', input: ' \n ', refused: 'GPX-001' },
  {
    row: 'G2 a web page',
    input: '<!DOCTYPE html><html><body>Sign in</body></html>',
    refused: 'GPX-002',
    title: /web page/,
    place: /line 1/,
  },
  { row: 'G2 a web page without a type', input: '<html><head></head></html>', refused: 'GPX-002' },
  {
    row: 'G3 cut off inside a tag',
    input: `${head}<trk><trkseg>${sixty.slice(0, 59).join('')}<trkpt lat="46.0`,
    refused: 'GPX-003',
    title: /middle of point 60/,
    place: /line 1, column \d+/,
    asks: 'yes-no',
  },
  {
    row: 'G3 and the whole points are wanted',
    input: `${head}<trk><name>n</name><trkseg>${sixty.slice(0, 59).join('')}<trkpt lat="46.0`,
    answers: { 'GPX-003': 'yes' },
    notes: ['GPX-003'],
    holds: (file) => {
      expect(points(file)).toHaveLength(59);
      expect(file.tracks[0]?.name).toBe('n (incomplete)');
    },
  },
  {
    row: 'G4 cut off between points',
    input: `${head}<trk><trkseg>${sixty.join('')}`,
    refused: 'GPX-004',
    title: /after point 60/,
    asks: 'yes-no',
  },
  {
    row: 'G5 a document type declaration',
    input: `<?xml version="1.0"?><!DOCTYPE gpx>${gpx(trk(...two)).replace(/<\?.*?\?>/, '')}`,
    refused: 'GPX-005',
    place: /line 1/,
  },
  { row: 'G6 an entity bomb', input: bomb, refused: 'GPX-005' },
  {
    row: 'G6 an external entity',
    input: `<?xml version="1.0"?><!DOCTYPE gpx [<!ENTITY x SYSTEM "file:///etc/passwd">]><gpx>&x;</gpx>`,
    refused: 'GPX-005',
  },
  {
    row: 'G7 an undefined entity',
    input: gpx('<trk><name>a&nbsp;b</name></trk>'),
    refused: 'GPX-007',
    place: /line 1, column \d+/,
  },
  { row: 'G8 a NUL', input: gpx('<trk><name>a\0b</name></trk>'), refused: 'GPX-008', place: /byte \d+/ },
  {
    row: 'G8 a control character after umlauts',
    input: gpx(`<trk><name>ä${'\u0007'}</name></trk>`),
    refused: 'GPX-008',
    place: new RegExp(`byte ${bytes(`${head}<trk><name>ä`).length}`),
  },
  {
    row: 'G8 a control character as a reference',
    input: gpx('<trk><name>&#7;</name></trk>'),
    refused: 'GPX-007',
  },
  { row: 'G9 two roots', input: gpx(trk(...two)) + '<gpx/>', refused: 'GPX-009' },
  { row: 'G9 rubbish behind the end', input: gpx(trk(...two)) + 'x', refused: 'GPX-009' },
  {
    row: 'G10 a prefixed namespace',
    input: `<g:gpx xmlns:g="http://www.topografix.com/GPX/1/1" version="1.1"><g:trk><g:trkseg><g:trkpt lat="46" lon="7"><g:ele>5</g:ele></g:trkpt></g:trkseg></g:trk></g:gpx>`,
    holds: (file) => expect(points(file)[0]?.elevationM).toBe(5),
  },
  {
    row: 'G10 elements of the same name in another namespace are not ours',
    input: gpx(
      `<extensions><x:trk xmlns:x="urn:x"><x:trkseg><x:trkpt lat="1" lon="1"/></x:trkseg></x:trk></extensions>`,
      trk(...two),
    ),
    holds: (file) => expect(points(file)).toHaveLength(2),
  },
  { row: 'G11 no namespace', input: `<gpx>${trk(...two)}</gpx>`, notes: ['GPX-011'] },
  { row: 'G11 GPX 1.0', input: gpx(trk(...two)).replace('GPX/1/1', 'GPX/1/0'), notes: ['GPX-011'] },
  {
    row: 'G12 KML under this name',
    input: '<kml xmlns="http://www.opengis.net/kml/2.2"/>',
    refused: 'GPX-012',
    title: /KML/,
  },
  {
    row: 'G12 TCX under this name',
    input: '<?xml version="1.0"?><!-- x --><TrainingCenterDatabase/>',
    refused: 'GPX-012',
    title: /TCX/,
  },
  {
    row: 'G12 FIT under this name',
    input: joined(new Uint8Array([14, 16, 0, 0, 0, 0, 0, 0]), '.FIT', new Uint8Array(20)),
    refused: 'GPX-012',
    title: /FIT/,
  },
  {
    row: 'G12 GeoJSON under this name',
    input: '{"type":"FeatureCollection","features":[]}',
    refused: 'GPX-012',
    title: /JSON/,
  },
  {
    row: 'G12 a ZIP archive under this name',
    input: joined('PK', new Uint8Array([3, 4]), 'xxxx'),
    refused: 'GPX-012',
    title: /ZIP/,
  },
  { row: 'G12 text under this name', input: 'lat,lon\n46,7\n', refused: 'GPX-012' },
  { row: 'G12 another XML root', input: '<svg xmlns="http://www.w3.org/2000/svg"/>', refused: 'GPX-012' },
  {
    row: 'G13 Latin-1 said to be UTF-8',
    input: joined(
      head,
      '<trk><name>M',
      new Uint8Array([0xfc]),
      'ller</name><trkseg>',
      ...two,
      '</trkseg></trk></gpx>',
    ),
    refused: 'GPX-013',
    place: new RegExp(`byte ${head.length + 12}$`),
    asks: 'yes-no',
  },
  {
    row: 'G13 and the names are read as Latin-1',
    input: joined(
      head,
      '<trk><name>M',
      new Uint8Array([0xfc]),
      'ller</name><trkseg>',
      ...two,
      '</trkseg></trk></gpx>',
    ),
    answers: { 'GPX-013': 'yes' },
    notes: ['GPX-013'],
    holds: (file) => expect(file.tracks[0]?.name).toBe('Müller'),
  },
  {
    row: 'G13 an encoding nobody knows',
    input: gpx(trk(...two)).replace('UTF-8', 'x-wing'),
    refused: 'GPX-013',
  },
  {
    row: 'G14 UTF-16 little-endian',
    input: encode16(gpx(trk(...two)).replace('UTF-8', 'UTF-16'), true),
    notes: ['GPX-014'],
    holds: (file) => expect(points(file)).toHaveLength(2),
  },
  {
    row: 'G14 UTF-16 big-endian',
    input: encode16(gpx(trk(...two)).replace('UTF-8', 'UTF-16'), false),
    notes: ['GPX-014'],
  },
  {
    row: 'G14 UTF-8 with a mark',
    input: joined(new Uint8Array([0xef, 0xbb, 0xbf]), gpx(trk(...two))),
    holds: (file) => expect(points(file)).toHaveLength(2),
  },
  {
    row: 'G15 waypoints only',
    input: gpx('<wpt lat="46" lon="7"/><wpt lat="46.1" lon="7"/>'),
    notes: ['GPX-015'],
    holds: (file) => {
      expect(file.tracks).toEqual([]);
      const chosen = chooseTrack(file, null);
      expect(!chosen.ok && chosen.problem.code).toBe('GPX-015');
    },
  },
  { row: 'G15 nothing at all', input: gpx('<metadata/>'), refused: 'GPX-040' },
  {
    row: 'G16 several tracks',
    input: gpx(trk(...two), trk(pt(47, 8), pt(47.001, 8), pt(47.002, 8))),
    notes: ['GPX-016'],
    holds: (file) => {
      expect(file.tracks).toHaveLength(2);
      const asked = chooseTrack(file, null);
      expect(!asked.ok && asked.problem.question?.kind).toBe('track');
      expect(!asked.ok && problemLine(asked.problem)).toMatch(
        /Choose one: 1 "t", 111 m, 2 points; 2 "t", 222 m, 3 points\. Answer with --track n\./,
      );
      expect(chooseTrack(file, 2)).toMatchObject({ ok: true, value: file.tracks[1] });
      expect(chooseTrack(file, 3).ok).toBe(false);
    },
  },
  {
    row: 'G17 segments with a gap',
    input: gpx(
      `<trk><trkseg>${two.join('')}</trkseg><trkseg>${pt(46.012, 7)}${pt(46.013, 7)}</trkseg></trk>`,
    ),
    notes: ['GPX-017'],
    holds: (file) => {
      expect(file.tracks[0]?.parts).toHaveLength(2);
      expect(file.notes.find(({ code }) => code === 'GPX-017')?.text).toBe(
        'gap of 1.2 km between segment 1 and 2',
      );
    },
  },
  {
    row: 'G18 a segment of one point',
    input: gpx(`<trk><trkseg>${pt(46, 7)}</trkseg><trkseg/></trk>`),
    notes: ['GPX-018'],
    holds: (file) => expect(points(file)).toHaveLength(1),
  },
  {
    row: 'G19 a latitude that is no number',
    input: gpx(trk(pt(46, 7), pt('abc', 7))),
    refused: 'GPX-019',
    title: /latitude "abc" is not a number/,
    place: /point 2, line 1/,
  },
  {
    row: 'G19 a latitude missing',
    input: gpx(trk('<trkpt lon="7"/>')),
    refused: 'GPX-019',
    title: /latitude is missing/,
  },
  { row: 'G19 a longitude empty', input: gpx(trk(pt(46, ''))), refused: 'GPX-019' },
  { row: 'G19 hexadecimal', input: gpx(trk(pt('0x1F', 7))), refused: 'GPX-019' },
  { row: 'G19 an exponent', input: gpx(trk(pt('4.6e1', 7))), refused: 'GPX-019' },
  { row: 'G20 a decimal comma', input: gpx(trk(pt('60,5', 7))), refused: 'GPX-020', place: /point 1/ },
  { row: 'G21 a hemisphere', input: gpx(trk(pt('60.5N', 7))), refused: 'GPX-021' },
  { row: 'G21 degrees and minutes', input: gpx(trk(pt("60°30'", 7))), refused: 'GPX-021' },
  {
    row: 'G22 latitude 91',
    input: gpx(trk(pt(91, 7))),
    refused: 'GPX-022',
    title: /91 is outside -90 to 90/,
  },
  { row: 'G22 longitude -181', input: gpx(trk(pt(46, -181))), refused: 'GPX-022' },
  { row: 'G22 longitude 361', input: gpx(trk(pt(46, 361))), refused: 'GPX-022' },
  {
    row: 'G23 longitude 180',
    input: gpx(trk(pt(46, 180))),
    holds: (file) => expect(points(file)[0]?.position).toEqual([-180, 46]),
  },
  {
    row: 'G23 longitudes from 0 to 360',
    input: gpx(trk(pt(46, 170), pt(46, 200))),
    refused: 'GPX-023',
    asks: 'yes-no',
    place: /point 2/,
  },
  {
    row: 'G23 and they are to be converted',
    input: gpx(trk(pt(46, 200))),
    answers: { 'GPX-023': 'yes' },
    holds: (file) => expect(points(file)[0]?.position).toEqual([-160, 46]),
  },
  {
    row: 'G25 points without a fix',
    input: gpx(trk(pt(46, 7), pt(0, 0), pt(46.001, 7))),
    refused: 'GPX-025',
    asks: 'yes-no',
    place: /part 1, point 2/,
  },
  {
    row: 'G25 and they are to be dropped',
    input: gpx(trk(pt(46, 7), pt(0, 0), pt(46.001, 7))),
    answers: { 'GPX-025': 'drop' },
    holds: (file) => expect(points(file)).toHaveLength(2),
  },
  {
    row: 'G25 a line that is really there',
    input: gpx(trk(pt(0, 0), pt(0.001, 0))),
    holds: (file) => expect(points(file)).toHaveLength(2),
  },
  {
    row: 'G26 repeated points',
    input: gpx(trk(pt(46, 7), pt(46, 7), pt(46.001, 7))),
    notes: ['GPX-026'],
    holds: (file) => expect(points(file)).toHaveLength(3),
  },
  { row: 'G27 a jump of 300 km', input: gpx(trk(pt(46, 7), pt(48.7, 7), pt(46, 7))), notes: ['GPX-027'] },
  {
    row: 'G28 elevation missing on some points',
    input: gpx(trk(pt(46, 7, '<ele>0</ele>'), pt(46.001, 7))),
    notes: ['GPX-028'],
    holds: (file) => expect(points(file).map(({ elevationM }) => elevationM)).toEqual([0, null]),
  },
  {
    row: 'G29 an empty elevation',
    input: gpx(trk(pt(46, 7, '<ele></ele>'))),
    refused: 'GPX-029',
    asks: 'yes-no',
  },
  { row: 'G29 NaN', input: gpx(trk(pt(46, 7, '<ele>NaN</ele>'))), asks: 'yes-no', refused: 'GPX-029' },
  {
    row: 'G29 thousands',
    input: gpx(trk(pt(46, 7, '<ele>1,234.5</ele>'))),
    asks: 'yes-no',
    refused: 'GPX-029',
    place: /point 1/,
  },
  {
    row: 'G29 far out of this world',
    input: gpx(trk(pt(46, 7, '<ele>1000000</ele>'))),
    asks: 'yes-no',
    refused: 'GPX-029',
  },
  {
    row: 'G29 and they are to be ignored',
    input: gpx(trk(pt(46, 7, '<ele>1,234.5</ele>'), pt(46.001, 7, '<ele>-0.0</ele>'))),
    answers: { 'GPX-029': 'yes' },
    holds: (file) => expect(points(file).map(({ elevationM }) => elevationM)).toEqual([null, -0]),
  },
  {
    row: 'G32 times missing, backwards, twice',
    input: gpx(
      trk(
        ...[
          '2031-01-01T00:00:02Z',
          '2031-01-01T00:00:01Z',
          '2031-01-01T00:00:01Z',
          '2031-02-30T00:00:00Z',
        ].map((time, i) => pt(46 + i / 1000, 7, `<time>${time}</time>`)),
      ),
    ),
    notes: ['GPX-032'],
    holds: (file) => {
      expect(file.notes.filter(({ code }) => code === 'GPX-032').map(({ text }) => text)).toEqual([
        '1 of 4 points has no time',
        '1 time runs backwards',
        '1 time is the same as the one before',
        '1 time cannot be read: treated as unknown',
      ]);
      expect(points(file)[3]?.timeMs).toBeNull();
    },
  },
  {
    row: 'G33 a time without zone',
    input: gpx(trk(pt(46, 7, '<time>2023-02-04T12:00:00</time>'))),
    notes: ['GPX-033'],
    holds: (file) => expect(points(file)[0]?.timeMs).toBeNull(),
  },
  {
    row: 'G33 a space for the T',
    input: gpx(trk(pt(46, 7, '<time>2023-02-04 12:00:00Z</time>'))),
    notes: ['GPX-033'],
    holds: (file) => expect(points(file)[0]?.timeMs).toBe(Date.UTC(2023, 1, 4, 12)),
  },
  {
    row: 'G33 an offset',
    input: gpx(trk(pt(46, 7, '<time>2023-02-04T12:00:00.25+05:30</time>'))),
    holds: (file) => expect(points(file)[0]?.timeMs).toBe(Date.UTC(2023, 1, 4, 6, 30, 0, 250)),
  },
  {
    row: 'G34 over 50 MB',
    input: new Uint8Array(50 * 1024 * 1024 + 1).fill(0x20),
    refused: 'GPX-034',
    title: /more than 50 MB/,
  },
  { row: 'G35 a huge attribute', input: gpx(trk(pt(46, '7'.repeat(10_000_000)))), refused: 'GPX-035' },
  {
    row: 'G35 a huge text',
    input: gpx(`<trk><name>${'x'.repeat(100_000)}</name></trk>`),
    refused: 'GPX-035',
  },
  { row: 'G35 nested very deep', input: nested(100_000), refused: 'GPX-035' },
  {
    row: 'G35 very many attributes',
    input: gpx(`<trk ${Array.from({ length: 100 }, (_, i) => `a${i}="1"`).join(' ')}/>`),
    refused: 'GPX-035',
  },
  {
    row: 'G36 a name to be afraid of',
    input: gpx(
      trk(...two).replace(
        '<name>t',
        `<name>&lt;img src=x onerror=alert(1)&gt; \u202eRTL \ud83c\udfd4 ${'y'.repeat(10_000)}`,
      ),
    ),
    notes: ['GPX-036'],
    holds: (file) => {
      expect(file.tracks[0]?.name).toMatch(/^<img src=x onerror=alert\(1\)> \u202eRTL 🏔 y+$/);
      expect(file.tracks[0]?.name.length).toBeGreaterThan(10_000);
    },
  },
  {
    row: 'G37 extensions are kept for writing back',
    input: gpx(
      trk(
        pt(
          46,
          7,
          '<extensions><q:hr xmlns:q="urn:x" q:z="&quot;"><a b="1">120 &amp; more</a></q:hr></extensions>',
        ),
      ),
    ),
    holds: (file) => {
      expect(points(file)[0]?.extensions).toBe(
        '<hr xmlns="urn:x" xmlns:a0="urn:x" a0:z="&quot;"><a xmlns="http://www.topografix.com/GPX/1/1" b="1">120 &amp; more</a></hr>',
      );
      const again = readTrackFile(bytes(tracksGpx(file)), 'again.gpx');
      expect(again.ok && again.value.tracks).toEqual(file.tracks);
    },
  },
  {
    row: 'G37 extensions over 1 KB are not',
    input: gpx(trk(pt(46, 7, `<extensions><hr xmlns="urn:x">${'1'.repeat(2000)}</hr></extensions>`))),
    notes: ['GPX-037'],
    holds: (file) => expect(points(file)[0]).not.toHaveProperty('extensions'),
  },
  {
    row: 'G37 a line keeps none of it',
    input: gpx(trk(pt(46, 7, '<extensions><hr xmlns="urn:x">120</hr></extensions>'), pt(46.001, 7))),
    holds: (file) => {
      const { line } = lineFromTrack(file.tracks[0] ?? { name: '', kind: 'track', parts: [] }, {
        id: 'x',
        name: '',
      });
      expect(Object.keys(line.points[0] ?? {})).toEqual(['position', 'elevationM', 'timeMs']);
    },
  },
  { row: 'G2 a web page in capitals', input: '<HTML><BODY></BODY></HTML>', refused: 'GPX-002' },
  { row: 'G2 a fragment of a web page', input: '<Head></Head>', refused: 'GPX-002' },
  {
    row: 'G3 cut off before the track has a name, and wanted',
    input: `${head}<trk><trkseg>${sixty.slice(0, 2).join('')}<trkpt`,
    answers: { 'GPX-003': 'yes' },
    holds: (file) => expect(file.tracks[0]?.name).toBe('(incomplete)'),
  },
  {
    row: 'G3 cut off before the first point: nothing to be wanted',
    input: `${head}<trk><trkseg>`,
    refused: 'GPX-004',
  },
  {
    row: 'G8 a control character in Latin-1',
    input: joined(gpx('').replace('UTF-8', 'ISO-8859-1').replace('</gpx>', '<a>'), new Uint8Array([0xfc, 7])),
    refused: 'GPX-008',
    place: new RegExp(`byte ${head.length + 5 + 3 + 1},`),
  },
  {
    row: 'G8 a control character in UTF-16',
    input: encode16(`<gpx>${'\u0007'}`, true),
    refused: 'GPX-008',
    place: /byte 12,/,
  },
  { row: 'an unusual namespace', input: gpx(trk(...two)).replace('GPX/1/1', 'GPX/1/1/'), notes: ['GPX-011'] },
  { row: 'a root inside the root', input: gpx('<gpx/>', trk(...two)), refused: 'GPX-041' },
  {
    row: 'a track without a name',
    input: gpx(trk(...two).replace('<name>t</name>', '')),
    holds: (file) => expect(file.tracks[0]?.name).toBe(''),
  },
  {
    row: 'a name twice',
    input: gpx(trk(...two).replace('</name>', '</name><name>u</name>')),
    refused: 'GPX-042',
  },
  {
    row: 'a point outside a segment',
    input: gpx(`<trk>${pt(46, 7)}</trk>`),
    refused: 'GPX-041',
    title: /"trkpt" stands inside "trk"/,
  },
  { row: 'a segment outside a track', input: gpx(`<trkseg>${pt(46, 7)}</trkseg>`), refused: 'GPX-041' },
  { row: 'a misspelt point', input: gpx(trk(pt(46, 7), '<trkpx lat="46" lon="8"/>')), refused: 'GPX-041' },
  { row: 'an elevation twice', input: gpx(trk(pt(46, 7, '<ele>1</ele><ele>2</ele>'))), refused: 'GPX-042' },
  {
    row: 'an element in an elevation',
    input: gpx(trk(pt(46, 7, '<ele><b>1</b></ele>'))),
    refused: 'GPX-042',
  },
  { row: 'an attribute twice', input: gpx(trk('<trkpt lat="46" lat="47" lon="7"/>')), refused: 'GPX-039' },
  { row: 'tags that cross', input: gpx('<trk><name></trk></name>'), refused: 'GPX-039' },
  { row: 'a prefix nobody declared', input: gpx('<trk><x:y/></trk>'), refused: 'GPX-039' },
];

describe('every bad track has its own answer', () => {
  test.each(rows)('$row', (row) => {
    const input = typeof row.input === 'string' ? bytes(row.input) : row.input;
    const result = readTrackFile(input, row.fileName ?? 'route.gpx', row.answers);
    if (row.refused !== undefined) {
      if (result.ok) throw new Error('it was opened');
      const { problem } = result;
      expect(problem.code).toBe(row.refused);
      expect(problem.subject).toBe('route.gpx');
      expect(problem.remedy.length).toBeGreaterThan(10);
      expect(problemLine(problem)).not.toMatch(/undefined(?! entity)|null|\n/);
      if (row.place) expect(problem.place).toMatch(row.place);
      if (row.title) expect(problem.title).toMatch(row.title);
      expect(problem.question?.kind).toBe(row.asks);
      return;
    }
    if (!result.ok) throw new Error(problemLine(result.problem));
    const codes = result.value.notes.map(({ code }) => code);
    expect(codes).toEqual(expect.arrayContaining([...(row.notes ?? [])]));
    row.holds?.(result.value);
  });
});

test('a file cut off anywhere is never opened as a shorter line', () => {
  const whole = bytes(gpx(trk(...sixty.slice(0, 5).map((point) => point.replace('><', '><ele>5</ele><')))));
  for (let length = 0; length < whole.length; length++)
    expect(readTrackFile(whole.slice(0, length), 'route.gpx').ok).toBe(false);
  expect(readTrackFile(whole, 'route.gpx').ok).toBe(true);
});

test('a bomb is refused before it can grow', () => {
  const declarations = '<!ENTITY a "xxxxxxxxxx">'.repeat(100_000);
  const result = readTrackFile(
    bytes(`<?xml version="1.0"?><!DOCTYPE g [${declarations}]><gpx>&a;</gpx>`),
    'route.gpx',
  );
  expect(!result.ok && result.problem.code).toBe('GPX-005');
});

describe('what only the ground can tell', () => {
  const line: LinePoint[] = [46, 46.001, 46.002].map((lat) => ({
    position: [7, lat],
    elevationM: 6000,
    timeMs: null,
  }));
  const isAlpine = ([lng, lat]: readonly [number, number]) => lng > 5 && lng < 10 && lat > 44 && lat < 48;

  test('G24 longitude and latitude exchanged', () => {
    const exchanged = swapLngLat(line);
    expect(
      looksSwapped(
        exchanged.map(({ position }) => position),
        isAlpine,
      ),
    ).toBe(true);
    expect(
      looksSwapped(
        line.map(({ position }) => position),
        isAlpine,
      ),
    ).toBe(false);
    expect(looksSwapped([[100, 50]], isAlpine)).toBe(false);
    expect(swapLngLat(exchanged)).toEqual(line);
  });

  const ground = Array.from({ length: 40 }, (_, i) => 1500 + 20 * i);

  test('G30 heights in feet', () => {
    const pairs = ground.map((groundM, i) => ({ fileM: groundM / 0.3048 + (i % 7) * 10, groundM }));
    expect(lookOfHeights(pairs)).toEqual({ kind: 'feet' });
    expect(heightsFromFeet(line)[0]?.elevationM).toBeCloseTo(1828.8, 6);
  });

  test('G31 another height reference', () => {
    const pairs = ground.map((groundM, i) => ({ fileM: groundM + 48 + ((i % 5) - 2) * 3, groundM }));
    expect(lookOfHeights(pairs)).toEqual({ kind: 'offset', offsetM: 48 });
    expect(lookOfHeights(ground.map((groundM, i) => ({ fileM: groundM + (i % 9) - 4, groundM })))).toEqual({
      kind: 'same',
    });
    expect(lookOfHeights([{ fileM: 1, groundM: null }])).toEqual({ kind: 'unknown' });
    expect(lookOfHeights(pairs.slice(1))).toMatchObject({ kind: 'offset' });
    expect(
      heightsFromFeet([{ position: [7, 46], elevationM: null, timeMs: null }])[0]?.elevationM,
    ).toBeNull();
    expect(swapLngLat([{ position: [100, 46], elevationM: null, timeMs: null }])[0]?.position).toEqual([
      100, 46,
    ]);
  });

  test('G38 the same file twice', () => {
    expect(isSameLine({ points: line }, { points: [...line] })).toBe(true);
    expect(isSameLine({ points: line }, { points: line.slice(1) })).toBe(false);
    expect(isSameLine({ points: line }, { points: swapLngLat(line) })).toBe(false);
  });
});
