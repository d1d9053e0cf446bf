/** LERC 2, version 2 (Esri's specification): a constant, or nothing at all. */
export function lercBlob({ rows = 3, cols = 4, version = 2, known = 12, z = 1234 } = {}): Uint8Array {
  const out = new DataView(new ArrayBuffer(66));
  new TextEncoder().encodeInto('Lerc2 ', new Uint8Array(out.buffer));
  [version, rows, cols, known, 8, 66, 6].forEach((value, i) => out.setInt32(6 + 4 * i, value, true));
  [0.001, z, z].forEach((value, i) => out.setFloat64(34 + 8 * i, value, true));
  out.setInt32(58, 0, true); // bytes of the mask: all, or none, are known
  return new Uint8Array(out.buffer);
}
