/** Grids read a second time by other means: words split by a pattern, numbers by the platform. */
export interface SecondGrid {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly stored: ArrayLike<number>;
  readonly nodata: number | null;
  /** Outer corner of the first cell, and its size. */
  readonly corner: readonly [x: number, y: number];
  readonly cell: readonly [x: number, y: number];
}

/** null: no grid to this reader. */
export function secondAsc(bytes: Uint8Array): SecondGrid | null {
  const words = String.fromCharCode(...bytes)
    .replace(/^\xef\xbb\xbf/, '')
    .split(/[\0-\x20]+/)
    .filter((word) => word !== '');
  const header: Record<string, number> = Object.create(null) as Record<string, number>;
  let at = 0;
  while (/^[a-z]\w*$/i.test(words[at] ?? '') && !/^(nan|inf)/i.test(words[at] ?? '')) {
    header[words[at]?.toLowerCase() ?? ''] = Number(words[at + 1]);
    at += 2;
  }
  const { ncols: widthPx, nrows: heightPx, cellsize, nodata_value } = header;
  const [colX, rowY] = [header['dx'] ?? cellsize, header['dy'] ?? cellsize];
  if (widthPx === undefined || heightPx === undefined || colX === undefined || rowY === undefined)
    return null;
  const west = header['xllcorner'] ?? (header['xllcenter'] ?? NaN) - colX / 2;
  const south = header['yllcorner'] ?? (header['yllcenter'] ?? NaN) - rowY / 2;
  const stored = words.slice(at).map(Number);
  if (stored.length !== widthPx * heightPx) return null;
  return {
    widthPx,
    heightPx,
    stored,
    nodata: nodata_value ?? null,
    corner: [west, south + heightPx * rowY],
    cell: [colX, -rowY],
  };
}

/** One degree tile, by its length and its name. */
export function secondHgt(name: string, bytes: Uint8Array): SecondGrid | null {
  const side = { 2884802: 1201, 25934402: 3601 }[bytes.length];
  const place = /([NS])(\d\d)_?([EW])(\d{3})/i.exec(name);
  if (side === undefined || place === null) return null;
  const south = Number(place[2]) * (/n/i.test(place[1] ?? '') ? 1 : -1);
  const west = Number(place[4]) * (/e/i.test(place[3] ?? '') ? 1 : -1);
  const cellDeg = 1 / (side - 1);
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length);
  const stored = new Float64Array(side * side);
  for (let i = 0; i < stored.length; i++) stored[i] = buffer.readInt16BE(2 * i);
  return {
    widthPx: side,
    heightPx: side,
    stored,
    nodata: -32768,
    corner: [west - cellDeg / 2, south + 1 + cellDeg / 2],
    cell: [cellDeg, -cellDeg],
  };
}
