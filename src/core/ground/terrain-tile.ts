/**
 * Elevations of a tile for the map's 3D view, RGBA: (red * 256 + green + blue / 256) - 32768 metres. Missing ones take the
 * nearest elevation of their row, then of the rows beside it, so that no wall stands around a hole.
 *
 * @param elevationsM row by row, NaN where missing
 */
export function terrainPixels(elevationsM: Float32Array, sizePx: number): Uint8ClampedArray<ArrayBuffer> {
  const filled = fillMissing(elevationsM, sizePx);
  const rgba = new Uint8ClampedArray(4 * filled.length);
  for (let i = 0; i < filled.length; i++) {
    const t = Math.round((filled[i]! + 32768) * 256);
    rgba[4 * i] = t >> 16;
    rgba[4 * i + 1] = (t >> 8) & 255;
    rgba[4 * i + 2] = t & 255;
    rgba[4 * i + 3] = 255;
  }
  return rgba;
}

function fillMissing(elevationsM: Float32Array, sizePx: number): Float32Array {
  const filled = Float32Array.from(elevationsM);
  let lastFull = -1;
  for (let y = 0; y < sizePx; y++) {
    const row = filled.subarray(y * sizePx, (y + 1) * sizePx);
    if (!fillRow(row)) {
      if (lastFull >= 0) row.set(filled.subarray(lastFull * sizePx, (lastFull + 1) * sizePx));
      continue;
    }
    // Rows above the first one with data take that one.
    if (lastFull < 0) for (let above = 0; above < y; above++) filled.set(row, above * sizePx);
    lastFull = y;
  }
  return lastFull < 0 ? filled.fill(0) : filled;
}

/** @returns false when the whole row is missing */
function fillRow(row: Float32Array): boolean {
  let last = row.find((z) => !Number.isNaN(z));
  if (last === undefined) return false;
  // Forwards the last one seen counts; then, from the middle of each gap on, the next one.
  for (let x = 0; x < row.length; x++) {
    if (!Number.isNaN(row[x]!)) {
      last = row[x]!;
      continue;
    }
    let end = x;
    while (end < row.length && Number.isNaN(row[end]!)) end++;
    const next = end < row.length ? row[end]! : last;
    const middle = (x + end) >> 1;
    row.fill(last, x, middle);
    row.fill(next, middle, end);
    x = end - 1;
  }
  return true;
}
