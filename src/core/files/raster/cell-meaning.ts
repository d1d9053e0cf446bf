/** How a stored number becomes an elevation in metres. */
export interface CellMeaning {
  readonly nodata: number | null;
  readonly scale: number;
  readonly offset: number;
  readonly metresPerUnit: number;
}

/** Metres land can have; deeper or higher cells are missing (judgement: Dead Sea shore -440 m, highest top 8 849 m). */
export const lowestM = -500;
export const highestM = 9000;

/** Cells taken as missing without the file saying so. */
export interface Unsaid {
  /** Numbers that mark missing cells by custom. */
  sentinels: number;
  /** Outside what land can have. */
  implausible: number;
}

const customary: readonly number[] = [-9999, -32768, -32767, -99999];

/** -9999, -32768 and the like, and anything beyond 1e30. An undeclared 0 is data. */
export const isSentinel = (stored: number) =>
  stored > 1e30 || (stored <= -9999 && (stored < -1e30 || customary.includes(stored)));

/** Turns stored numbers into metres in place, missing ones into NaN, and counts what the file did not declare. */
export function toMetres(cells: Float32Array | Float64Array, meaning: CellMeaning): Unsaid {
  const { scale, offset, metresPerUnit } = meaning;
  const nodata = meaning.nodata ?? NaN;
  const nodata32 = Math.fround(nodata); // writers round the tag or the cells, so both are compared as float32
  const unsaid: Unsaid = { sentinels: 0, implausible: 0 };
  const isAsStored = isPlain(meaning) && !(nodata32 >= lowestM && nodata32 <= highestM);
  const nextToJudge = (from: number) => (isAsStored ? endOfLand(cells, from) : from);
  for (let i = nextToJudge(0); i < cells.length; i = nextToJudge(i + 1)) {
    const stored = cells[i]!;
    const metres = (stored * scale + offset) * metresPerUnit;
    const isLand = metres >= lowestM && metres <= highestM;
    // First what nearly every cell is.
    if (isLand && stored > -9999 && stored !== nodata && Math.fround(stored) !== nodata32) cells[i] = metres;
    else if (Number.isNaN(stored)) continue;
    else if (stored === nodata || Math.fround(stored) === nodata32) cells[i] = NaN;
    else if (isSentinel(stored)) {
      cells[i] = NaN;
      unsaid.sentinels++;
    } else if (isLand) cells[i] = metres;
    else {
      cells[i] = NaN;
      unsaid.implausible++;
    }
  }
  return unsaid;
}

/** The first cell from there on that no land has; the cells' length where there is none. A loop so small is quick at once. */
function endOfLand(cells: Float32Array | Float64Array, from: number): number {
  const end = cells.length;
  const [low, high] = [lowestM, highestM];
  for (let i = from; i < end; i++) {
    const stored = cells[i]!;
    if (!(stored >= low && stored <= high)) return i;
  }
  return end;
}

export const isPlain = ({ scale, offset, metresPerUnit }: CellMeaning) =>
  scale === 1 && offset === 0 && metresPerUnit === 1;
