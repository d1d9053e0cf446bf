import { deflateSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { problemLine } from '../../../src/core/domain/problem';
import { cellCentre, ProblemError, type Raster } from '../../../src/core/domain/raster';
import type { RasterOptions } from '../../../src/core/files/raster/open';
import { opened, readWhole, refused } from '../../core/files/raster/read-whole';
import {
  geoKeys,
  utmFields,
  writeTiff,
  type FieldText,
  type TiffPlan,
} from '../../core/files/raster/write-tiff';

interface Row {
  readonly row: string;
  readonly input: Uint8Array | TiffPlan;
  readonly name?: string;
  readonly options?: RasterOptions;
  /** Code of the problem. */
  readonly refused?: string;
  readonly title?: RegExp;
  readonly remedy?: RegExp;
  readonly asks?: 'crs' | 'elevation-unit';
  /** Codes of notes that must be there. */
  readonly notes?: readonly string[];
  readonly holds?: (raster: Raster, cells: Float64Array) => void;
}

const text = (words: string) => new TextEncoder().encode(words);
const latin = (words: string) => Uint8Array.from(words, (c) => c.charCodeAt(0));
const without = (...tags: number[]): TiffPlan => ({ without: tags });
const fields = (...list: FieldText[]): TiffPlan => ({ fields: list });
const centre = (raster: Raster, col: number, row: number) => cellCentre(raster.affine, [col, row]);

/** A directory that points back to itself or elsewhere: the last four bytes of the only directory are its successor. */
function chainedTo(offset: (first: number) => number): Uint8Array {
  const first = new DataView(writeTiff().buffer).getUint32(4, true);
  return writeTiff({ lastNext: offset(first) });
}

const strips4 = { widthPx: 4, heightPx: 8, rowsPerStrip: 2 } as const;
const cutStrips = () => {
  // The strips come first in these files: a copy whose offsets of the last two strips lie beyond the end.
  const whole = writeTiff(strips4);
  const plan = {
    ...strips4,
    fields: [[273, 4, [8, 40, whole.length, whole.length + 32]]],
  } satisfies TiffPlan;
  return writeTiff(plan);
};

const wide = (value: number): TiffPlan => fields([256, 4, [value]], [257, 4, [value]]);
const hill = Array.from({ length: 12 }, (_, i) => 1000 + i);
const holed = (hole: number) => hill.map((z, i) => (i === 5 ? hole : z));
const expectHole = (_: Raster, cells: Float64Array) => {
  expect([...cells].map((z) => Number.isNaN(z))).toEqual(hill.map((_z, i) => i === 5));
};
const tie = (i: number, j: number, x: number, y: number): FieldText => [33922, 12, [i, j, 0, x, y, 0]];
const matrix = (...m: number[]): FieldText => [34264, 12, m];

const rows: readonly Row[] = [
  { row: 'B1 empty', input: new Uint8Array(0), refused: 'TIF-001', title: /empty/ },
  { row: 'B1 seven bytes', input: latin('II*\0\x08\0\0'), refused: 'TIF-003' },
  { row: 'B1 PNG', input: latin('\x89PNG\r\n\x1a\n0000'), refused: 'TIF-001', title: /PNG/ },
  { row: 'B1 ZIP', input: latin('PK\x03\x04....'), refused: 'TIF-001', title: /ZIP/ },
  { row: 'B1 web page', input: text('<!DOCTYPE html><p>404'), refused: 'TIF-001', title: /web page/ },
  { row: 'B1 JPEG 2000', input: latin('\0\0\0\x0cjP  \r\n'), refused: 'TIF-001', title: /JPEG 2000/ },
  { row: 'B1 text', input: text('no raster at all'), refused: 'TIF-001', title: /text/ },
  {
    row: 'B2 directory that follows itself',
    input: chainedTo((first) => first),
    refused: 'TIF-002',
    title: /back to byte/,
  },
  {
    row: 'B3 first directory past the end',
    input: latin('II*\0\xff\xff\xff\x7f'),
    refused: 'TIF-003',
    title: /byte 2147483647/,
  },
  { row: 'B3 later directory past the end', input: chainedTo(() => 1e9), notes: ['TIF-111'] },
  {
    row: 'B3 strips past the end: the rest is read',
    input: cutStrips(),
    notes: ['TIF-103'],
    holds: (_, cells) => {
      expect([...cells.subarray(0, 16)]).toEqual(Array.from({ length: 16 }, (_v, i) => 1000 + i));
      expect([...cells.subarray(16)].every(Number.isNaN)).toBe(true);
    },
  },
  { row: 'B3 tag past the end', input: fields([33922, 12, []]), refused: 'TIF-010' },
  {
    row: 'B4 100 000 squared in a few hundred bytes',
    input: wide(100_000),
    refused: 'TIF-005',
    title: /100000 x 100000/,
  },
  {
    row: 'B4 one strip of 40 GB',
    input: {
      ...wide(100_000),
      fields: [
        [256, 4, [100_000]],
        [257, 4, [100_000]],
        [278, 4, [100_000]],
      ],
    },
    refused: 'TIF-005',
  },
  { row: 'B4 the largest numbers there are', input: wide(2 ** 32 - 1), refused: 'TIF-005' },
  { row: 'B4 stored size absurd', input: fields([279, 4, [500_000_000]]), refused: 'TIF-014', notes: [] },
  { row: 'B5 65 535 bands', input: fields([277, 3, [65535]]), refused: 'TIF-006', title: /65535 bands/ },
  {
    row: 'B5 colour picture',
    input: { bands: 3, bits: 8, kind: 'uint', cells: Array.from({ length: 36 }, (_, i) => i) },
    refused: 'TIF-006',
    title: /picture/,
  },
  {
    row: 'B6 bytes',
    input: { bits: 8, kind: 'uint', cells: hill.map((z) => z - 990) },
    refused: 'TIF-007',
    asks: 'elevation-unit',
  },
  {
    row: 'B6 bytes, vouched for',
    input: { bits: 8, kind: 'uint', cells: hill.map((z) => z - 990) },
    options: { elevationUnit: 'm' },
    holds: (_, cells) => expect(cells[3]).toBe(13),
  },
  {
    row: 'B7 JPEG 2000',
    input: fields([259, 3, [34712]]),
    refused: 'TIF-008',
    title: /JPEG 2000 \(34712\)/,
    remedy: /COMPRESS=DEFLATE/,
  },
  { row: 'B7 JPEG', input: fields([259, 3, [7]]), refused: 'TIF-008', title: /lossy/ },
  { row: 'B7 nobody knows', input: fields([259, 3, [4711]]), refused: 'TIF-008', title: /unknown \(4711\)/ },
  {
    row: 'B8 predictor 3 on whole numbers',
    input: { kind: 'int', bits: 16, predictor: 3 },
    refused: 'TIF-009',
    title: /predictor/,
  },
  { row: 'B8 12 bits', input: fields([258, 3, [12]], [339, 3, [1]]), refused: 'TIF-009', title: /12-bit/ },
  { row: 'B8 complex numbers', input: fields([339, 3, [6]]), refused: 'TIF-009' },
  { row: 'B8 bits in reverse', input: fields([266, 3, [2]]), refused: 'TIF-009' },
  { row: 'B9 no position', input: without(33550, 33922), refused: 'TIF-010', remedy: /a_ullr/ },
  { row: 'B9 cells of no size', input: fields([33550, 12, [0, 0, 0]]), refused: 'TIF-010' },
  { row: 'B9 position not finite', input: fields(tie(0, 0, NaN, 5100000)), refused: 'TIF-010' },
  {
    row: 'B11 control points only',
    input: {
      without: [33550],
      fields: [[33922, 12, [0, 0, 0, 1, 2, 0, 4, 0, 0, 5, 2, 0, 0, 3, 0, 1, 9, 0]]],
    },
    refused: 'TIF-011',
    title: /3 ground control points/,
    remedy: /gdalwarp/,
  },
  {
    row: 'B11 camera coefficients only',
    input: { without: [33550, 33922], fields: [[50844, 12, [1, 2]]] },
    refused: 'TIF-011',
    title: /RPC/,
  },
  {
    row: 'B12 rotated',
    input: {
      without: [33550, 33922],
      fields: [matrix(8, 6, 0, 500000, 6, -8, 0, 5100000, 0, 0, 0, 0, 0, 0, 0, 1)],
    },
    refused: 'TIF-012',
    remedy: /gdalwarp/,
  },
  {
    row: 'B12 scale of the other sign',
    input: fields([33550, 12, [10, -10, 0]]),
    refused: 'TIF-012',
    title: /negative row height/,
  },
  {
    row: 'B12 matrix with north up',
    input: {
      without: [33550, 33922],
      fields: [matrix(10, 0, 0, 500000, 0, -10, 0, 5100000, 0, 0, 0, 0, 0, 0, 0, 1)],
    },
    holds: (raster) => expect(centre(raster, 0, 0)).toEqual([500005, 5099995]),
  },
  {
    row: 'B13 cells are points',
    input: fields(geoKeys([1024, 1], [1025, 2], [3072, 32632])),
    holds: (raster) => expect(centre(raster, 0, 0)).toEqual([500000, 5100000]),
  },
  {
    row: 'B14 tie point at cell 2, 1',
    input: fields(tie(2, 1, 500000, 5100000)),
    holds: (raster) => expect(centre(raster, 2, 1)).toEqual([500005, 5099995]),
  },
  {
    row: 'B15 south up',
    input: {
      without: [33550, 33922],
      fields: [matrix(10, 0, 0, 500000, 0, 10, 0, 5000000, 0, 0, 0, 0, 0, 0, 0, 1)],
    },
    holds: (raster, cells) => {
      expect(centre(raster, 0, 0)).toEqual([500005, 5000025]);
      expect([...cells.subarray(0, 4)]).toEqual([1008, 1009, 1010, 1011]);
      expect([...cells.subarray(8)]).toEqual([1000, 1001, 1002, 1003]);
    },
  },
  {
    row: 'B15 columns from east to west',
    input: {
      without: [33550, 33922],
      fields: [matrix(-10, 0, 0, 500040, 0, -10, 0, 5100000, 0, 0, 0, 0, 0, 0, 0, 1)],
    },
    holds: (raster, cells) => {
      expect(centre(raster, 0, 0)).toEqual([500005, 5099995]);
      expect([...cells.subarray(0, 4)]).toEqual([1003, 1002, 1001, 1000]);
    },
  },
  {
    row: 'B16 degrees',
    input: fields(
      geoKeys([1024, 2], [1025, 1], [2048, 4326]),
      [33550, 12, [0.001, 0.001, 0]],
      tie(0, 0, 7, 46),
    ),
    // A thousandth of a degree at 46 degrees north: 111.15 m by 77.46 m (GeographicLib), 94.3 m on average.
    holds: (raster) => expect(raster.cellM).toBeCloseTo(94.3, 1),
  },
  { row: 'B17 no system', input: without(34735), refused: 'CRS-001', asks: 'crs' },
  { row: 'B17 no system, said by hand', input: without(34735), options: { crs: 'EPSG:32632' } },
  {
    row: 'B17 said by hand in words',
    input: without(34735),
    options: { crs: 'Switzerland' },
    refused: 'CRS-004',
  },
  {
    row: 'B17 user-defined and incomplete',
    input: fields(geoKeys([1024, 1], [3072, 32767])),
    refused: 'CRS-005',
    asks: 'crs',
  },
  {
    row: 'B18 unknown code',
    input: fields(geoKeys([1024, 1], [3072, 9999])),
    refused: 'CRS-002',
    title: /EPSG:9999/,
    remedy: /gdalwarp/,
  },
  {
    row: 'B19 metres that are degrees',
    input: fields([33550, 12, [0.0001, 0.0001, 0]], tie(0, 0, 7, 46)),
    refused: 'CRS-003',
    title: /cannot be metres/,
  },
  {
    row: 'B19 degrees that are metres',
    input: fields(geoKeys([1024, 2], [2048, 4326])),
    refused: 'CRS-003',
    title: /cannot be degrees/,
  },
  {
    row: 'B20 web Mercator',
    input: fields(geoKeys([1024, 1], [3072, 3857]), tie(0, 0, 779236, 5780349)),
    notes: ['TIF-110'],
    // cos 46 degrees times the sphere against the ellipsoid: 10 map metres are 6.95 m (east 6.971 by the normal's radius, north 6.935).
    holds: (raster) => expect(raster.cellM).toBeCloseTo(6.95, 1),
  },
  { row: 'B21 undeclared -9999', input: { cells: holed(-9999) }, notes: ['TIF-102'], holds: expectHole },
  {
    row: 'B21 undeclared -32768',
    input: { kind: 'int', bits: 16, cells: holed(-32768) },
    notes: ['TIF-102'],
    holds: expectHole,
  },
  {
    row: 'B21 undeclared -3.4e38',
    input: { cells: holed(-3.4028234663852886e38) },
    notes: ['TIF-102'],
    holds: expectHole,
  },
  { row: 'B21 undeclared NaN', input: { cells: holed(NaN) }, holds: expectHole },
  {
    row: 'B21 undeclared 65535',
    input: { kind: 'uint', bits: 16, cells: holed(65535) },
    notes: ['TIF-104'],
    holds: expectHole,
  },
  {
    row: 'B22 undeclared 0 is data',
    input: { cells: holed(0) },
    holds: (_, cells) => expect(cells[5]).toBe(0),
  },
  { row: 'B22 declared 0', input: { cells: holed(0), fields: [[42113, 2, '0\0']] }, holds: expectHole },
  {
    row: 'B23 nodata without its NUL',
    input: { cells: holed(-9998), fields: [[42113, 2, '-9998']] },
    holds: expectHole,
  },
  {
    row: 'B23 nodata with a decimal comma',
    input: { fields: [[42113, 2, '-9999,0\0']] },
    refused: 'TIF-013',
    title: /-9999,0/,
  },
  { row: 'B23 nodata in words', input: { fields: [[42113, 2, 'none\0']] }, refused: 'TIF-013' },
  { row: 'B23 empty nodata', input: { fields: [[42113, 2, '\0\0\0\0\0']] } },
  {
    row: 'B23 nodata near float32',
    input: { cells: holed(-3.4028234663852886e38), fields: [[42113, 2, '-3.39999999999999996e+38\0']] },
    holds: expectHole,
  },
  {
    row: 'B24 looks like feet',
    input: { cells: hill.map((z) => z * 12) },
    refused: 'UNIT-001',
    asks: 'elevation-unit',
    title: /cannot be metres/,
  },
  {
    row: 'B24 looks like feet for the region',
    input: { cells: hill.map((z) => z * 7) },
    refused: 'UNIT-001',
    asks: 'elevation-unit',
    title: /look like feet/,
  },
  {
    row: 'B24 feet, said',
    input: { cells: hill.map((z) => z * 12) },
    options: { elevationUnit: 'ft' },
    holds: (_, cells) => expect(cells[0]).toBeCloseTo(12000 * 0.3048, 9),
  },
  {
    row: 'B24 vertical unit key',
    input: fields(geoKeys([1024, 1], [3072, 32632], [4099, 9003])),
    holds: (_, cells) => expect(cells[0]).toBeCloseTo((1000 * 1200) / 3937, 9),
  },
  {
    row: 'B24 vertical system in US feet',
    input: fields(geoKeys([1024, 1], [3072, 32632], [4096, 6360])),
    holds: (_, cells) => expect(cells[0]).toBeCloseTo((1000 * 1200) / 3937, 9),
  },
  {
    row: 'B24 vertical system of depths',
    input: fields(geoKeys([1024, 1], [3072, 32632], [4096, 5715])),
    refused: 'TIF-017',
  },
  {
    row: 'B24 scale and offset',
    input: {
      kind: 'uint',
      bits: 16,
      cells: hill,
      fields: [
        [
          42112,
          2,
          '<GDALMetadata><Item name="OFFSET" sample="0" role="offset">100</Item><Item name="SCALE" sample="0" role="scale">0.5</Item></GDALMetadata>\0',
        ],
      ],
    },
    holds: (_, cells) => expect(cells[2]).toBe(100 + 1002 * 0.5),
  },
  {
    row: 'B24 scale of nothing',
    input: {
      fields: [
        [42112, 2, '<GDALMetadata><Item name="SCALE" sample="0" role="scale">x</Item></GDALMetadata>\0'],
      ],
    },
    refused: 'TIF-016',
  },
  { row: 'B25 all missing', input: { cells: hill.map(() => NaN) }, refused: 'TIF-014' },
  { row: 'B25 all the same', input: { cells: hill.map(() => 1000) }, notes: ['TIF-107'] },
  {
    row: 'B26 whole metres on small cells',
    input: { kind: 'int', bits: 16, fields: [[33550, 12, [2, 2, 0]]] },
    notes: ['TIF-108'],
  },
  { row: 'B28 coarse cells', input: fields([33550, 12, [90, 90, 0]]), notes: ['TIF-109'] },
  { row: 'B36 BigTIFF', input: { isBig: true }, holds: (_, cells) => expect([...cells]).toEqual(hill) },
  {
    row: 'B36 BigTIFF, offset beyond 2^53',
    input: { isBig: true, fields: [[273, 16, [Number.MAX_SAFE_INTEGER]]] },
    refused: 'TIF-003',
  },
  {
    row: 'B36 big-endian',
    input: { isLittle: false },
    holds: (_, cells) => expect([...cells]).toEqual(hill),
  },
  {
    row: 'several bands: the first',
    input: { bands: 2, cells: hill.flatMap((z) => [z, 5]) },
    notes: ['TIF-101'],
    holds: (_, cells) => expect([...cells]).toEqual(hill),
  },
  {
    row: 'sparse strip',
    input: { cells: hill, rowsPerStrip: 1, fields: [[279, 4, [16, 0, 16]]] },
    holds: (_, cells) => expect([...cells].map(Number.isNaN)).toEqual(hill.map((_z, i) => i >= 4 && i < 8)),
  },
  {
    row: 'big-endian with predictor 2',
    input: {
      isLittle: false,
      kind: 'int',
      bits: 16,
      predictor: 2,
      compression: 8,
      cells: [1000, 1, 1, 1, 1004, 1, 1, 1, 1008, 1, 1, 1],
      pack: (bytes) => deflateSync(bytes),
    },
    holds: (_, cells) => expect([...cells]).toEqual(hill),
  },
  {
    row: 'a bomb: more than its strip',
    input: { compression: 8, pack: () => deflateSync(new Uint8Array(50_000_000)) },
    refused: 'TIF-015',
    title: /more than 48 bytes|cannot be decoded|larger/i,
  },
  {
    row: 'deflate data broken',
    input: { compression: 8, pack: () => Uint8Array.of(0x78, 0x9c, 1, 2, 3, 4) },
    refused: 'TIF-015',
  },
  {
    row: 'deflate data too short',
    input: { compression: 8, pack: () => deflateSync(new Uint8Array(8)) },
    refused: 'TIF-015',
    title: /8 of 48 bytes/,
  },
  {
    row: 'a tag twice',
    input: { fields: [...utmFields, [33550, 12, [10, 10, 0]]] },
    refused: 'TIF-004',
    title: /twice/,
  },
  {
    row: 'UTM far from its zone',
    input: fields(tie(0, 0, 2600000, 1200000)),
    refused: 'CRS-003',
    title: /far outside/,
  },
];

test.each(rows)('$row', async ({ input, name, options, notes, holds, ...expected }) => {
  const bytes = input instanceof Uint8Array ? input : writeTiff(input);
  if (expected.refused !== undefined) {
    const problem = await refused(bytes, options, name);
    expect({ code: problem.code, line: problemLine(problem) }).toMatchObject({ code: expected.refused });
    if (expected.title) expect(problem.title).toMatch(expected.title);
    if (expected.remedy) expect(problem.remedy).toMatch(expected.remedy);
    expect(problem.question?.kind).toBe(expected.asks);
    expect(problemLine(problem)).toMatch(/^grid\.tif.*\[[A-Z]+-\d{3}\]$/);
    return;
  }
  const raster = await opened(bytes, options, name);
  const cells = await readWhole(raster);
  expect(raster.notes.map(({ code }) => code)).toEqual(expect.arrayContaining([...(notes ?? [])]));
  holds?.(raster, cells);
});

test('every code has one row at least, or is tested with its own format', () => {
  const tested = new Set(rows.flatMap(({ refused: code, notes }) => [code, ...(notes ?? [])]));
  for (let n = 1; n <= 17; n++) expect(tested).toContain(`TIF-${String(n).padStart(3, '0')}`);
  expect(ProblemError).toBeDefined();
});
