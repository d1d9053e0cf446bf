/**
 * Undoes PackBits (TIFF 6.0 p. 42) by geotiff's decoder, which knows no bounds and takes the byte that means nothing (128) for
 * a run of 129: what it may make is bounded here first, and those bytes are taken out.
 * Rejects when the data end early or give more than `maxBytes`.
 */
export async function unpackBits(packed: Uint8Array, maxBytes: number): Promise<Uint8Array> {
  const { runs, lengthBytes } = runsOf(packed);
  if (lengthBytes > maxBytes) throw new RangeError(`unpacks to more than ${maxBytes} bytes`);
  const { getDecoder } = await import('geotiff'); // seldom met, so loaded when it is
  const decoder = await getDecoder(32773, blockOnly);
  return new Uint8Array(await decoder.decodeBlock(runs.buffer));
}

/** Only the block is undone; predictor and byte order are ours. */
const blockOnly = { tileWidth: 0, tileHeight: 0, predictor: 1, bitsPerSample: [8], planarConfiguration: 1 };

/** The runs alone, and how many bytes they stand for; throws where the last one is cut. */
function runsOf(packed: Uint8Array): { runs: Uint8Array<ArrayBuffer>; lengthBytes: number } {
  const runs = new Uint8Array(packed.length);
  let kept = 0;
  let lengthBytes = 0;
  for (let at = 0; at < packed.length;) {
    const head = packed[at]!;
    if (head === 128) {
      at++;
      continue;
    }
    const [count, stored] = head < 128 ? [head + 1, head + 1] : [257 - head, 1];
    const end = at + 1 + stored;
    if (end > packed.length) throw new RangeError('ends inside a run');
    runs.set(packed.subarray(at, end), kept);
    kept += 1 + stored;
    lengthBytes += count;
    at = end;
  }
  return { runs: runs.slice(0, kept), lengthBytes };
}
