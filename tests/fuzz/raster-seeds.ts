import { deflateSync } from 'node:zlib';
import { utmFields, writeTiff, type FieldText } from '../core/files/raster/write-tiff';

const widthPx = 24;
const heightPx = 20;
const hill = Array.from({ length: widthPx * heightPx }, (_, i) => {
  const [x, y] = [i % widthPx, Math.floor(i / widthPx)];
  return Math.round(1500 + 40 * Math.sin(x / 3) + 25 * y);
});
const holed = hill.map((z, i) => (i % 11 === 0 ? -9999 : z));
const size = { widthPx, heightPx, rowsPerStrip: 7 } as const;
const deflate = (bytes: Uint8Array) => deflateSync(bytes);
/** Literal runs only: enough for a reader that undoes PackBits. */
const packBits = (bytes: Uint8Array): Uint8Array => {
  const out: number[] = [];
  for (let at = 0; at < bytes.length; at += 100) {
    const run = bytes.subarray(at, at + 100);
    out.push(run.length - 1, ...run);
  }
  return Uint8Array.from(out);
};
const nodata: FieldText = [42113, 2, '-9999\0'];
const scaled: FieldText = [
  42112,
  2,
  '<GDALMetadata>\n<Item name="OFFSET" sample="0" role="offset">100</Item><Item name="SCALE" sample="0" role="scale">0.5</Item>\n<Item name="UNITTYPE" sample="0" role="unittype">m</Item></GDALMetadata>\0',
];
const userTm: readonly FieldText[] = [
  [
    34735,
    3,
    [
      1, 1, 0, 8, 1024, 0, 1, 1, 1025, 0, 1, 1, 2048, 0, 1, 4326, 3072, 0, 1, 32767, 3074, 0, 1, 32767, 3075,
      0, 1, 1,
    ].concat([3080, 34736, 1, 0, 3081, 34736, 1, 1]),
  ],
  [34736, 12, [8.5, 0]],
];
const overview: readonly FieldText[] = [
  [254, 4, [1]],
  [256, 4, [2]],
  [257, 4, [2]],
  [258, 3, [32]],
  [259, 3, [1]],
  [262, 3, [1]],
  [273, 4, [8]],
  [277, 3, [1]],
  [278, 4, [2]],
  [279, 4, [16]],
  [339, 3, [3]],
];

/** Good files of many kinds, small so that a change hits something that matters. */
export const rasterSeeds: readonly Uint8Array[] = [
  writeTiff({ ...size, cells: hill }),
  writeTiff({ ...size, cells: holed, fields: [nodata], isLittle: false }),
  writeTiff({ ...size, cells: hill, isBig: true, kind: 'float', bits: 64 }),
  writeTiff({
    ...size,
    cells: holed,
    kind: 'int',
    bits: 16,
    compression: 8,
    pack: deflate,
    fields: [nodata],
  }),
  writeTiff({
    ...size,
    cells: hill,
    kind: 'uint',
    bits: 16,
    compression: 32773,
    pack: packBits,
    fields: [scaled],
  }),
  writeTiff({
    ...size,
    cells: hill,
    kind: 'int',
    bits: 32,
    compression: 8,
    pack: deflate,
    isLittle: false,
    isBig: true,
  }),
  writeTiff({ ...size, cells: hill.flatMap((z) => [z, 1]), bands: 2 }),
  writeTiff({ ...size, cells: hill, fields: userTm, more: [overview] }),
  writeTiff({
    ...size,
    cells: hill,
    without: [33550, 33922],
    fields: [[34264, 12, [10, 0, 0, 5e5, 0, 10, 0, 5e6, 0, 0, 0, 0, 0, 0, 0, 1]]],
  }),
  writeTiff({
    ...size,
    cells: hill,
    fields: utmFields.map((field) =>
      field[0] === 34735
        ? [34735, 3, [1, 1, 0, 3, 1024, 0, 1, 1, 1025, 0, 1, 2, 3072, 0, 1, 2056]]
        : field[0] === 33922
          ? [33922, 12, [1, 2, 0, 2600000, 1200000, 0]]
          : field,
    ),
  }),
];
