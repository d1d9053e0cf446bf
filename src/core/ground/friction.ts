import type { Figures } from '../assumptions/figures';
import { hardnesses } from '../domain/snow';

const tan = (degrees: number): number => Math.tan((degrees * Math.PI) / 180);

/**
 * Friction of a sliding climber on each hardness: the snow's low sliding value, rising to its low arresting value as the
 * ground gets gentle, since there people stop themselves. Judgement.
 */
export class Friction {
  readonly #sliding: Float64Array;
  readonly #arresting: Float64Array;
  readonly #fromDeg: number;
  readonly #overDeg: number;
  readonly #steepTan: number;

  constructor(figures: Figures) {
    this.#sliding = Float64Array.from(hardnesses, (hardness) => figures.snow[hardness].muSliding.low);
    this.#arresting = Float64Array.from(hardnesses, (hardness) => figures.snow[hardness].muArresting.low);
    this.#fromDeg = figures.runOut.easeFromDeg;
    this.#overDeg = figures.runOut.easeOverDeg;
    this.#steepTan = tan(this.#fromDeg);
  }

  /** Share of the way from sliding to arresting friction at a place with this tangent of slope. */
  ease(slopeTan: number): number {
    if (slopeTan >= this.#steepTan) return 0;
    const slopeDeg = (Math.atan(slopeTan) * 180) / Math.PI;
    return Math.max(0, Math.min(1, (this.#fromDeg - slopeDeg) / this.#overDeg));
  }

  /** @param hardness index into the hardnesses */
  mu(hardness: number, ease: number): number {
    const sliding = this.#sliding[hardness]!;
    return sliding + ease * (this.#arresting[hardness]! - sliding);
  }
}
