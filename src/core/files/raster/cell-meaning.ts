/** How a stored number becomes an elevation in metres. */
export interface CellMeaning {
  readonly nodata: number | null;
  readonly scale: number;
  readonly offset: number;
  readonly metresPerUnit: number;
}

/** Heights no land on Earth has, metres; deeper or higher cells are missing (judgement: Dead Sea shore -440, highest top 8 849). */
export const lowestM = -500;
export const highestM = 9000;

/** Cells taken as missing without the file saying so. Counted as blocks are read. */
export interface Unsaid {
  /** -9999, -32768 and the like, and anything below -1e30. */
  sentinels: number;
  /** Outside what land can have. */
  implausible: number;
}

const sentinels: readonly number[] = [-9999, -32768, -32767, -99999];

/** True for numbers that mark missing cells by custom. An undeclared 0 is data. */
export const isSentinel = (stored: number) => stored < -1e30 || stored > 1e30 || sentinels.includes(stored);

/** Turns stored numbers into metres in place, missing ones into NaN. */
export function toMetres(cells: Float32Array | Float64Array, meaning: CellMeaning, unsaid: Unsaid): void {
  const { scale, offset, metresPerUnit } = meaning;
  const nodata = meaning.nodata === null ? NaN : meaning.nodata;
  const nodata32 = Math.fround(nodata); // writers round the tag or the cells, so both are compared as float32
  for (let i = 0; i < cells.length; i++) {
    const stored = cells[i] ?? NaN;
    if (stored !== stored) continue;
    if (stored === nodata || Math.fround(stored) === nodata32) {
      cells[i] = NaN;
      continue;
    }
    if (isSentinel(stored)) {
      cells[i] = NaN;
      unsaid.sentinels++;
      continue;
    }
    const metres = (stored * scale + offset) * metresPerUnit;
    if (metres >= lowestM && metres <= highestM) {
      cells[i] = metres;
    } else {
      cells[i] = NaN;
      unsaid.implausible++;
    }
  }
}
