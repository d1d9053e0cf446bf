/** Undoes PackBits (TIFF 6.0 p. 42). Throws when the data end early or give more than `maxBytes`. */
export function unpackBits(packed: Uint8Array, maxBytes: number): Uint8Array {
  const out = new Uint8Array(maxBytes);
  let at = 0;
  let length = 0;
  while (at < packed.length && length < maxBytes) {
    const head = packed[at++] ?? 0;
    if (head === 128) continue;
    const count = head < 128 ? head + 1 : 257 - head;
    if (length + count > maxBytes) throw new RangeError(`unpacks to more than ${maxBytes} bytes`);
    if (at + (head < 128 ? count : 1) > packed.length) throw new RangeError('ends inside a run');
    if (head < 128) out.set(packed.subarray(at, at + count), length);
    else out.fill(packed[at] ?? 0, length, length + count);
    at += head < 128 ? count : 1;
    length += count;
  }
  return out.subarray(0, length);
}
