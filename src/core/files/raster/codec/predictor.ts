/**
 * Undoes the horizontal predictor (2) in place: each sample is stored as its difference from the one before of the same
 * band (TIFF 6.0 p. 64). Bytes must already be in little-endian order.
 */
export function undoDifferences(
  bytes: Uint8Array,
  rowBytes: number,
  samplesApart: number,
  bits: number,
): void {
  const rows = Math.floor(bytes.length / rowBytes);
  const perRow = Math.floor(rowBytes / (bits / 8));
  const all = wordsOf(bytes, bits);
  for (let row = 0; row < rows; row++) {
    const start = row * perRow;
    for (let i = start + samplesApart; i < start + perRow; i++) add(all, i, i - samplesApart);
  }
}

type Words = Uint8Array | Uint16Array | Uint32Array | BigUint64Array;

function wordsOf({ buffer, byteOffset, length }: Uint8Array, bits: number): Words {
  if (bits === 8) return new Uint8Array(buffer, byteOffset, length);
  if (bits === 16) return new Uint16Array(buffer, byteOffset, length >> 1);
  if (bits === 32) return new Uint32Array(buffer, byteOffset, length >> 2);
  return new BigUint64Array(buffer, byteOffset, length >> 3);
}

function add(words: Words, to: number, from: number): void {
  if (words instanceof BigUint64Array) words[to] = words[to]! + words[from]!;
  else words[to] = words[to]! + words[from]!;
}

/**
 * Undoes the floating-point predictor (3): byte planes, most significant first whatever the file's byte order, each row
 * differenced byte by byte (Adobe Photoshop TIFF Technical Note 3, 2005). The result is little-endian.
 */
export function undoFloatPlanes(
  bytes: Uint8Array,
  rowBytes: number,
  samplesApart: number,
  bits: number,
): void {
  const size = bits / 8;
  const perRow = rowBytes / size;
  const row = new Uint8Array(rowBytes);
  for (let start = 0; start + rowBytes <= bytes.length; start += rowBytes) {
    for (let i = start + samplesApart; i < start + rowBytes; i++)
      bytes[i] = (bytes[i]! + bytes[i - samplesApart]!) & 255;
    row.set(bytes.subarray(start, start + rowBytes));
    for (let sample = 0; sample < perRow; sample++)
      for (let byte = 0; byte < size; byte++)
        bytes[start + sample * size + byte] = row[(size - 1 - byte) * perRow + sample]!;
  }
}

/** Turns the byte order of every sample round, in place. */
export function swapBytes(bytes: Uint8Array, sampleBytes: number): void {
  for (let at = 0; at + sampleBytes <= bytes.length; at += sampleBytes)
    for (let low = at, high = at + sampleBytes - 1; low < high; low++, high--) {
      const kept = bytes[low]!;
      bytes[low] = bytes[high]!;
      bytes[high] = kept;
    }
}
