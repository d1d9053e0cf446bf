import { deflateSync } from 'node:zlib';

const tilePx = 128;

/** Projected, cells are areas; heights in metres above sea level (EGM2008, EPSG:3855). */
const geoKeys = (epsg) =>
  [
    [1, 1, 0, 5],
    [1024, 0, 1, 1],
    [1025, 0, 1, 1],
    [3072, 0, 1, epsg],
    [4096, 0, 1, 3855],
    [4099, 0, 1, 9001],
  ].flat();

/** A tiled, deflated float32 GeoTIFF (predictor 3) in a UTM zone; just what the demo terrain needs. */
export function writeGeoTiff({ heights, widthPx, heightPx, cellM, westM, northM, epsg, nodata }) {
  const acrossTiles = Math.ceil(widthPx / tilePx);
  const downTiles = Math.ceil(heightPx / tilePx);
  const tiles = [];
  for (let tileRow = 0; tileRow < downTiles; tileRow++)
    for (let tileCol = 0; tileCol < acrossTiles; tileCol++)
      tiles.push(deflateSync(tileBytes(heights, widthPx, heightPx, tileCol, tileRow), { level: 9 }));

  const ascii = (text) => Buffer.from(text + '\0');
  const shorts = (values) => Buffer.from(new Uint16Array(values).buffer);
  const longs = (values) => Buffer.from(new Uint32Array(values).buffer);
  const doubles = (values) => Buffer.from(new Float64Array(values).buffer);
  const SHORT = 3;
  const LONG = 4;
  const entries = [
    [256, LONG, 1, longs([widthPx])],
    [257, LONG, 1, longs([heightPx])],
    [258, SHORT, 1, shorts([32])],
    [259, SHORT, 1, shorts([8])],
    [262, SHORT, 1, shorts([1])],
    [277, SHORT, 1, shorts([1])],
    [317, SHORT, 1, shorts([3])],
    [322, SHORT, 1, shorts([tilePx])],
    [323, SHORT, 1, shorts([tilePx])],
    [324, LONG, tiles.length, null], // tile offsets, filled in below
    [325, LONG, tiles.length, longs(tiles.map((tile) => tile.length))],
    [339, SHORT, 1, shorts([3])],
    [33550, 12, 3, doubles([cellM, cellM, 0])],
    [33922, 12, 6, doubles([0, 0, 0, westM, northM, 0])],
    [34735, SHORT, 24, shorts(geoKeys(epsg))],
    [42113, 2, `${nodata}\0`.length, ascii(String(nodata))],
  ];

  const directoryAt = 8;
  let free = directoryAt + 2 + 12 * entries.length + 4;
  const place = (lengthBytes) => {
    const at = free;
    free += lengthBytes + (lengthBytes & 1);
    return at;
  };
  const outside = new Map();
  for (const [tag, , count, bytes] of entries) {
    const lengthBytes = bytes === null ? 4 * count : bytes.length;
    if (lengthBytes > 4) outside.set(tag, place(lengthBytes));
  }
  const tileOffsets = tiles.map((tile) => place(tile.length));
  const file = Buffer.alloc(free);
  file.write('II');
  file.writeUInt16LE(42, 2);
  file.writeUInt32LE(directoryAt, 4);
  file.writeUInt16LE(entries.length, directoryAt);
  entries.forEach(([tag, type, count, given], i) => {
    const bytes = given ?? longs(tileOffsets);
    const at = directoryAt + 2 + 12 * i;
    file.writeUInt16LE(tag, at);
    file.writeUInt16LE(type, at + 2);
    file.writeUInt32LE(count, at + 4);
    const elsewhere = outside.get(tag);
    if (elsewhere === undefined) bytes.copy(file, at + 8);
    else {
      file.writeUInt32LE(elsewhere, at + 8);
      bytes.copy(file, elsewhere);
    }
  });
  tiles.forEach((tile, i) => tile.copy(file, tileOffsets[i]));
  return file;
}

/** One tile with the floating-point predictor (Adobe TIFF technical note 3): bytes by significance, then differences. */
function tileBytes(heights, widthPx, heightPx, tileCol, tileRow) {
  const out = Buffer.alloc(tilePx * tilePx * 4);
  const cell = Buffer.alloc(4);
  for (let r = 0; r < tilePx; r++) {
    const line = out.subarray(r * tilePx * 4, (r + 1) * tilePx * 4);
    for (let c = 0; c < tilePx; c++) {
      const row = Math.min(tileRow * tilePx + r, heightPx - 1);
      const col = Math.min(tileCol * tilePx + c, widthPx - 1);
      cell.writeFloatBE(heights[row * widthPx + col]);
      for (let b = 0; b < 4; b++) line[b * tilePx + c] = cell[b];
    }
    for (let i = line.length - 1; i > 0; i--) line[i] = (line[i] - line[i - 1]) & 255;
  }
  return out;
}
