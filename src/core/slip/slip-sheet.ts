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
 * Unheld shares of 100 for slopes known exactly: row by slope, column by angle to the fall line. Who is held on a slope is held on
 * gentler ones too (but for one slip in some hundred thousand), so each slip is followed only about the slope from which it stays
 * unheld, looked for first where it was at the angle before.
 */
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
  const firstRows = new Int16Array(slips * climbers.length).fill(slopesDeg.length >> 1);

  betasDeg.forEach((betaDeg, column) => {
    const scan = new SlopeScan(slipFollower(way, betaDeg, figures, draws), slopesDeg);
    const unheldFrom = new Float64Array(slopesDeg.length + 1);
    for (let draw = 0, i = 0; draw < slips; draw++) {
      scan.draw(draw);
      for (let slipper = 0; slipper < climbers.length; slipper++, i++) {
        const row = scan.firstUnheld(slipper, firstRows[i]!);
        firstRows[i] = row;
        unheldFrom[row] = unheldFrom[row]! + weights[slipper]!;
      }
    }
    let weight = 0;
    for (let row = 0; row < slopesDeg.length; row++) {
      weight += unheldFrom[row]!;
      unheldPct[row * betasDeg.length + column] = (100 * weight) / total;
    }
  });
  return unheldPct;
}

/** Looks for the slopes from which the slips of one draw stay unheld. */
class SlopeScan {
  #row = -1;

  constructor(
    readonly slip: SlipFollower,
    readonly slopesDeg: Float64Array,
  ) {}

  draw(draw: number): void {
    this.slip.draw(draw);
    this.#row = -1;
  }

  /** The gentlest slope, as its row, on which the slip of one climber stays unheld; one past the last where it never does. */
  firstUnheld(slipper: number, guess: number): number {
    let held = -1;
    let unheld = this.slopesDeg.length;
    let row = Math.min(guess, unheld - 1);
    // By longer and longer steps from the guess until both are known, then by halves.
    for (let step = 1; unheld - held > 1; step *= 2) {
      const isUnheld = this.#isUnheld(row, slipper);
      if (isUnheld) unheld = row;
      else held = row;
      row = isUnheld ? row - step : row + step;
      if (row <= held || row >= unheld) row = (held + unheld) >> 1;
    }
    return unheld;
  }

  #isUnheld(row: number, slipper: number): boolean {
    if (row !== this.#row) this.slip.standOn(this.slopesDeg[row]!);
    this.#row = row;
    return this.slip.follow(slipper) === ending.unheld;
  }
}
