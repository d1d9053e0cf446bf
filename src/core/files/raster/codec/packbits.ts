/**
 * Undoes PackBits (TIFF 6.0 p. 42) by geotiff's decoder, which knows no bounds: what it may make is bounded here first.
 * Rejects when the data end early or give more than `maxBytes`.
 */
export async function unpackBits(packed: Uint8Array, maxBytes: number): Promise<Uint8Array> {
  if (runLengths(packed) > maxBytes) throw new RangeError(`unpacks to more than ${maxBytes} bytes`);
  const { getDecoder } = await import('geotiff'); // seldom met, so loaded when it is
  const decoder = await getDecoder(32773, blockOnly);
  return new Uint8Array(await decoder.decodeBlock(new Uint8Array(packed).buffer));
}

/** Only the block is undone; predictor and byte order are ours. */
const blockOnly = { tileWidth: 0, tileHeight: 0, predictor: 1, bitsPerSample: [8], planarConfiguration: 1 };

/** Bytes that the runs stand for; throws where the last run is cut. */
function runLengths(packed: Uint8Array): number {
  let length = 0;
  for (let at = 0; at < packed.length;) {
    const head = packed[at++]!;
    if (head === 128) continue;
    const [count, stored] = head < 128 ? [head + 1, head + 1] : [257 - head, 1];
    if (at + stored > packed.length) throw new RangeError('ends inside a run');
    at += stored;
    length += count;
  }
  return length;
}
