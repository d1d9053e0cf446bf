import { isSentinel, type CellMeaning } from './cell-meaning';

/** What a look at some of a raster's cells tells, before it is used. */
export interface Survey {
  /** Cells looked at, and those of them that are missing, declared or by custom. */
  readonly cells: number;
  readonly missing: number;
  readonly sentinels: number;
  /** Every cell of the raster was looked at. */
  readonly isWhole: boolean;
  /** Elevations in the file's unit (scale and offset applied), rising. */
  readonly sorted: Float64Array;
  /** Only whole numbers occur. */
  readonly isWholeNumbers: boolean;
}

/** The largest a cell can hold, or nines: more likely marks than heights, so they do not count for the range. */
const extremes: readonly number[] = [32767, 65535, 9999, 99999];

/** How thinly cells are looked at. */
export interface Sampling {
  /** One cell in so many is looked at. Default 1: all are. */
  readonly lookApart?: number;
  /** One cell in so many is kept for the ranks; a multiple of `lookApart`. Default the same. */
  readonly keepApart?: number;
}

/** Collects cells as stored; enough of them are kept for the ranks. */
export class SurveyBook {
  readonly #meaning: CellMeaning;
  readonly #lookApart: number;
  readonly #keepApart: number;
  readonly #kept: number[] = [];
  #cells = 0;
  #missing = 0;
  #sentinels = 0;
  #isWholeNumbers = true;

  constructor(meaning: CellMeaning, { lookApart = 1, keepApart = lookApart }: Sampling = {}) {
    this.#meaning = meaning;
    this.#lookApart = lookApart;
    this.#keepApart = keepApart;
  }

  add(stored: ArrayLike<number>): void {
    const { nodata, scale, offset } = this.#meaning;
    const nodata32 = Math.fround(nodata ?? NaN);
    let [missing, sentinels, isWholeNumbers] = [0, 0, this.#isWholeNumbers];
    for (let i = 0; i < stored.length; i += this.#lookApart) {
      const value = stored[i]!;
      if (Number.isNaN(value) || value === nodata || Math.fround(value) === nodata32) missing++;
      else if (isSentinel(value)) sentinels++;
      else {
        const scaled = value * scale + offset;
        isWholeNumbers &&= Number.isInteger(scaled);
        if (i % this.#keepApart === 0 && !extremes.includes(value)) this.#kept.push(scaled);
      }
    }
    this.#cells += Math.ceil(stored.length / this.#lookApart);
    this.#missing += missing + sentinels;
    this.#sentinels += sentinels;
    this.#isWholeNumbers = isWholeNumbers;
  }

  /** Cells with data that the ranks are made of. */
  get known(): number {
    return this.#kept.length;
  }

  close(isWhole: boolean): Survey {
    return {
      cells: this.#cells,
      missing: this.#missing,
      sentinels: this.#sentinels,
      isWhole,
      sorted: Float64Array.from(this.#kept).sort(),
      isWholeNumbers: this.#isWholeNumbers && this.#kept.length > 0,
    };
  }
}

/** The value below which this share (0 to 1) of the surveyed cells lies; NaN without any. */
export function rank({ sorted }: Survey, share: number): number {
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN;
}
