import { Decompress } from 'fzstd';

/** Undoes Zstandard. Throws when the data are damaged or give more than `maxBytes`. */
export function unZstd(packed: Uint8Array, maxBytes: number): Uint8Array {
  const out = new Uint8Array(maxBytes);
  let length = 0;
  const stream = new Decompress((part) => {
    if (length + part.length > maxBytes) throw new RangeError(`expands to more than ${maxBytes} bytes`);
    out.set(part, length);
    length += part.length;
  });
  stream.push(packed, true);
  return out.subarray(0, length);
}
