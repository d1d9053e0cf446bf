import { crc32, deflateSync, gzipSync } from 'node:zlib';

/** One pink tile as a PNG, and a PMTiles archive of it at zoom 0 with its makers' names. */
export function pictureTiles(): { readonly png: Buffer; readonly archive: Buffer } {
  const png = pinkPicture(256);
  return { png, archive: archiveOf(png) };
}

/** @source W3C, Portable Network Graphics (PNG) Specification, second edition. */
function pinkPicture(sidePx: number): Buffer {
  const row = Buffer.concat([Buffer.from([0]), Buffer.alloc(3 * sidePx)]);
  for (let x = 0; x < sidePx; x++) row.set([255, 0, 255], 1 + 3 * x);
  const head = Buffer.alloc(13);
  head.writeUInt32BE(sidePx, 0);
  head.writeUInt32BE(sidePx, 4);
  head.set([8, 2, 0, 0, 0], 8);
  const chunk = (kind: string, data: Buffer) => {
    const body = Buffer.concat([Buffer.from(kind, 'latin1'), data]);
    const length = Buffer.alloc(4);
    length.writeUInt32BE(data.length);
    const sum = Buffer.alloc(4);
    sum.writeUInt32BE(crc32(body));
    return Buffer.concat([length, body, sum]);
  };
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(Buffer.concat(Array.from({ length: sidePx }, () => row)))),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

/** @source PMTiles Version 3 Specification (Protomaps), header of 127 bytes and one root directory of one entry. */
function archiveOf(tile: Buffer): Buffer {
  // One entry: tile id 0, a run of one, its length, its offset plus one; each below is a varint.
  const directory = gzipSync(Buffer.from([1, 0, 1, ...varint(tile.length), 1]));
  const metadata = gzipSync(JSON.stringify({ attribution: 'Makers of <b>Nowhere</b>' }));
  const head = Buffer.alloc(127);
  head.write('PMTiles', 0, 'latin1');
  head[7] = 3;
  const parts = [127, directory.length, 127 + directory.length, metadata.length];
  const dataAt = 127 + directory.length + metadata.length;
  [...parts, dataAt, 0, dataAt, tile.length, 1, 1, 1].forEach((value, i) =>
    head.writeBigUInt64LE(BigInt(value), 8 + 8 * i),
  );
  // Clustered; directories gzipped, tiles as they are; PNG; zoom 0 alone.
  head.set([1, 2, 1, 2, 0, 0], 96);
  [-180, -85, 180, 85].forEach((deg, i) => head.writeInt32LE(deg * 1e7, 102 + 4 * i));
  return Buffer.concat([head, directory, metadata, tile]);
}

function varint(value: number): number[] {
  return value < 128 ? [value] : [(value & 127) | 128, ...varint(value >> 7)];
}
