import lerc from 'lerc';

export interface LercChunk {
  readonly values: ArrayLike<number>;
  /** 1 where a value is stored; null when everywhere. */
  readonly mask: Uint8Array | null;
}

/** Decodes one LERC blob of exactly this size. Its header is checked before the decoder may allocate by it. */
export function decodeLerc(bytes: Uint8Array, widthPx: number, heightPx: number, bands: number): LercChunk {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 40 || String.fromCharCode(...bytes.subarray(0, 6)) !== 'Lerc2 ')
    throw new Error('does not start with a LERC 2 header');
  const version = view.getInt32(6, true);
  const sizeAt = version >= 3 ? 14 : 10; // a checksum comes first from version 3 on
  const rows = view.getInt32(sizeAt, true);
  const cols = view.getInt32(sizeAt + 4, true);
  const depth = version >= 4 ? view.getInt32(sizeAt + 8, true) : 1;
  if (rows !== heightPx || cols !== widthPx || depth !== bands)
    throw new Error(`holds ${cols} x ${rows} x ${depth} cells, not ${widthPx} x ${heightPx} x ${bands}`);
  const exact = new Uint8Array(bytes); // the decoder takes whole buffers only
  const decoded = lerc.decode(exact.buffer, { returnPixelInterleavedDims: true });
  return { values: decoded.pixels[0]!, mask: decoded.mask ?? null };
}
