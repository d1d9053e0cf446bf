import type { Figures } from '../assumptions/figures';
import { drawSlips } from './draws';
import { ending } from './one-slip';
import { byHeight, slipFollower, type SlipFollower, type WayToGo } from './slip-follower';

/** Slopes and angles to the fall line at which shares are worked out, and with how many slips. */
export interface SheetGrid {
  readonly slopesDeg: Float64Array;
  /** Twice the same angle where the figures step there: the first time just below it. */
  readonly betasDeg: Float64Array;
  /** For each climber. */
  readonly slips: number;
}

/**
 * Every so many slopes first; between two on which a slip ends differently the step is looked for by halves: who is held on a
 * slope is held on gentler ones too, but for one slip in many thousands.
 */
const stride = 16;

/** Unheld shares of 100 for slopes known exactly: row by slope, column by angle to the fall line. */
export function buildSheet(
  way: WayToGo & { readonly goingDown: boolean },
  figures: Figures,
  grid: SheetGrid,
): Float32Array {
  const { slopesDeg, betasDeg, slips } = grid;
  const climbers = byHeight(way.party.climbers, way.goingDown);
  const weights = Float64Array.from(climbers, ({ ability }) => figures.ability[ability].slips);
  const total = slips * weights.reduce((sum, weight) => sum + weight, 0);
  const draws = drawSlips(climbers.length, way.party.rope, way.snow, figures, slips);
  const unheldPct = new Float32Array(slopesDeg.length * betasDeg.length);

  betasDeg.forEach((betaDeg, column) => {
    const scan = new SlopeScan(slipFollower(way, betaDeg, figures, draws), slopesDeg, weights);
    for (let i = 0; i < slips; i++) scan.add(i);
    scan.unheld.forEach((weight, row) => {
      unheldPct[row * betasDeg.length + column] = (100 * weight) / total;
    });
  });
  return unheldPct;
}

/** Counts, slope by slope, the slips of every climber that stay unheld. */
class SlopeScan {
  /** Sum of the slippers' weights, by slope. */
  readonly unheld: Float64Array;
  /** By slope and slipper. */
  readonly #isUnheld: Uint8Array;
  readonly #climbers: number;

  constructor(
    readonly slip: SlipFollower,
    readonly slopesDeg: Float64Array,
    readonly weights: Float64Array,
  ) {
    this.#climbers = weights.length;
    this.unheld = new Float64Array(slopesDeg.length);
    this.#isUnheld = new Uint8Array(slopesDeg.length * weights.length);
  }

  add(draw: number): void {
    const last = this.slopesDeg.length - 1;
    this.slip.draw(draw);
    this.#follow(0);
    for (let from = 0; from < last; from += stride) {
      const to = Math.min(last, from + stride);
      this.#follow(to);
      this.#fillBetween(from, to);
    }
    for (let row = 0; row <= last; row++) this.#count(row);
  }

  #follow(row: number): void {
    const n = this.#climbers;
    this.slip.standOn(this.slopesDeg[row]!);
    for (let slipper = 0; slipper < n; slipper++) {
      this.#isUnheld[row * n + slipper] = this.slip.follow(slipper) === ending.unheld ? 1 : 0;
    }
  }

  /** Between two slopes on which a slip ends the same it does so throughout; else the step is looked for by halves. */
  #fillBetween(from: number, to: number): void {
    const middle = (from + to) >> 1;
    if (middle === from) return;
    const n = this.#climbers;
    const isUnheld = this.#isUnheld;
    let stands = false;
    for (let slipper = 0; slipper < n; slipper++) {
      const low = isUnheld[from * n + slipper]!;
      if (low === isUnheld[to * n + slipper]!) {
        isUnheld[middle * n + slipper] = low;
        continue;
      }
      if (!stands) this.slip.standOn(this.slopesDeg[middle]!);
      stands = true;
      isUnheld[middle * n + slipper] = this.slip.follow(slipper) === ending.unheld ? 1 : 0;
    }
    this.#fillBetween(from, middle);
    this.#fillBetween(middle, to);
  }

  #count(row: number): void {
    let weight = 0;
    for (let slipper = 0; slipper < this.#climbers; slipper++) {
      weight += this.weights[slipper]! * this.#isUnheld[row * this.#climbers + slipper]!;
    }
    this.unheld[row] = this.unheld[row]! + weight;
  }
}
