const clearCode = 256;
const endCode = 257;
const firstCode = 258;
const maxCodes = 4096;

/**
 * Undoes TIFF's LZW (TIFF 6.0 p. 57): codes of 9 to 12 bits, most significant first, one code early.
 * Every string is a stretch of what was already written, so the table holds where it begins and how long it is.
 * Throws when the data are damaged or give more than `maxBytes`.
 */
export function unLzw(packed: Uint8Array, maxBytes: number): Uint8Array {
  if (packed.length > 1 && packed[0] === 0 && (packed[1]! & 1) === 1)
    throw new Error('is LZW of the old kind, least significant bit first');
  const out = new Uint8Array(maxBytes);
  const startAt = new Int32Array(maxCodes);
  const lengthOf = new Int32Array(maxCodes);
  let length = 0;
  let next = firstCode;
  let width = 9;
  let previousAt = -1;
  let previousLength = 0;
  let bits = 0;
  let held = 0;
  let at = 0;
  for (;;) {
    while (held < width) {
      if (at >= packed.length) return out.subarray(0, length); // some writers leave out the closing code
      bits = ((bits << 8) | packed[at++]!) & 0xffffff;
      held += 8;
    }
    const code = (bits >> (held - width)) & ((1 << width) - 1);
    held -= width;
    if (code === endCode) return out.subarray(0, length);
    if (code === clearCode) {
      next = firstCode;
      width = 9;
      previousAt = -1;
      continue;
    }
    if (length >= maxBytes) return out;

    const begin = length;
    if (code < clearCode) {
      out[length++] = code;
    } else {
      const isNew = code === next; // the string being defined: the previous one and its own first byte
      if (previousAt < 0 || code > next) throw new Error(`holds code ${code} before it is defined`);
      const from = isNew ? previousAt : startAt[code]!;
      const count = isNew ? previousLength + 1 : lengthOf[code]!;
      if (length + count > maxBytes) throw new RangeError(`expands to more than ${maxBytes} bytes`);
      for (let i = 0; i < count; i++) out[length + i] = out[from + i]!; // may overlap: byte by byte
      length += count;
    }
    if (previousAt >= 0 && next < maxCodes) {
      startAt[next] = previousAt;
      lengthOf[next] = previousLength + 1;
      next++;
      if (next + 1 >= 1 << width && width < 12) width++; // one code early
    }
    previousAt = begin;
    previousLength = length - begin;
  }
}
