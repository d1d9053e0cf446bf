import type { BlockView } from './block-view';
import type { GroundScales } from './ground-scale';
import { downhillDegOf, hornGradient, profileCurvaturePerM, slopeDegOf } from './window';

/** Closer than this to a cell centre, in cells, the centre alone decides: a missing neighbour then takes no part. */
const onCentre = 1e-6;

/** Linear from one centre to the next. Who has no weight has no say, NaN or not. */
export function betweenCentres(a: number, b: number, share: number): number {
  if (share < onCentre) return a;
  return share > 1 - onCentre ? b : (1 - share) * a + share * b;
}

/**
 * A cell of one raster and its eight neighbours. Stations follow each other, several in a cell: what it says is worked out
 * once.
 */
export class NineCells {
  slopeDeg = NaN;
  /** null where the ground is level. */
  aspectDeg: number | null = null;
  curvaturePerM = NaN;
  readonly #z = new Float64Array(9);
  #col = NaN;
  #row = NaN;

  constructor(
    readonly view: BlockView,
    readonly scales: GroundScales,
  ) {}

  /** @returns false where one of the nine cells is missing, outside or not in memory: then it says nothing */
  moveTo(col: number, row: number): boolean {
    if (col === this.#col && row === this.#row) return true;
    this.#col = NaN;
    if (!this.view.readWindow(col, row, this.#z)) return false;
    const scale = this.scales.near(col + 0.5, row + 0.5);
    const gradient = hornGradient(this.#z, scale);
    this.slopeDeg = slopeDegOf(gradient);
    if (Number.isNaN(this.slopeDeg)) return false;
    const downhillDeg = downhillDegOf(gradient);
    this.aspectDeg = Number.isNaN(downhillDeg) ? null : downhillDeg;
    this.curvaturePerM = profileCurvaturePerM(this.#z, scale);
    this.#col = col;
    this.#row = row;
    return true;
  }

  /** Bilinear at a fractional cell coordinate in the middle cell, metres. */
  elevationM(col: number, row: number): number {
    const z = this.#z;
    const east = col - this.#col + 0.5;
    const south = row - this.#row + 0.5;
    const nw = (south < 1 ? 0 : 3) + (east < 1 ? 0 : 1);
    const northM = betweenCentres(z[nw]!, z[nw + 1]!, east % 1);
    const southM = betweenCentres(z[nw + 3]!, z[nw + 4]!, east % 1);
    return betweenCentres(northM, southM, south % 1);
  }
}
