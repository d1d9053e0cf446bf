import { gravityMS2 } from '../domain/gravity';
import type { Figures } from '../assumptions/figures';
import { hardnesses } from '../domain/snow';
import type { RunOutEnding } from '../domain/station';
import { Friction } from './friction';

/** What a slide did on one hardness. */
export interface SlideEnd {
  readonly ending: RunOutEnding;
  /** Along the slope. */
  readonly lengthM: number;
  readonly dropM: number;
  readonly maxSpeedMS: number;
}

/** One step of a slide's way. */
export interface SlideStep {
  /** Horizontal length. */
  readonly stepM: number;
  /** Height lost. */
  readonly dropM: number;
  /** Length along the slope. */
  readonly alongM: number;
  /** Tangent of the ground's slope where the step began. */
  readonly slopeTan: number;
  /** What ends here whatever still slides. */
  readonly ending: RunOutEnding | null;
  /** Who has been faster than anybody survives need not be followed any further. */
  readonly isFar: boolean;
}

/**
 * The speeds on all hardnesses along one way: v^2 += 2 g (drop - mu * horizontal length), which is
 * v^2 += 2 g (sin - mu cos) ds along the step.
 *
 * @source energy line: A. Heim, "Bergsturz und Menschenleben" (1932).
 */
export class SlideSpeeds {
  readonly #friction: Friction;
  readonly #deadlyV2: number;
  readonly #v2 = new Float64Array(hardnesses.length);
  readonly #maxV2 = new Float64Array(hardnesses.length);
  /** Indices of the hardnesses that still slide, in the first `alive` places. */
  readonly #sliding = new Int32Array(hardnesses.length);
  #ends: (SlideEnd | undefined)[] = [];
  #lengthM = 0;
  #dropM = 0;
  alive = 0;

  constructor(figures: Figures) {
    this.#friction = new Friction(figures);
    this.#deadlyV2 = figures.runOut.injuringMaxMS ** 2;
  }

  get lengthM(): number {
    return this.#lengthM;
  }

  /** By index of hardness; only those asked for. */
  get ends(): readonly (SlideEnd | undefined)[] {
    return this.#ends;
  }

  /** @param asked indices of the hardnesses to follow, from rest */
  start(asked: readonly number[]): void {
    this.#v2.fill(0);
    this.#maxV2.fill(0);
    this.#sliding.set(asked);
    this.#ends = [];
    this.#lengthM = 0;
    this.#dropM = 0;
    this.alive = asked.length;
  }

  /** @returns the share of the step that the farthest of them slid */
  advance(step: SlideStep): number {
    const { stepM, dropM, ending } = step;
    const v2 = this.#v2;
    const maxV2 = this.#maxV2;
    const sliding = this.#sliding;
    const friction = this.#friction;
    const ease = friction.ease(step.slopeTan);
    let farthest = 0;
    for (let k = 0; k < this.alive;) {
      const h = sliding[k]!;
      const before = v2[h]!;
      const after = before + 2 * gravityMS2 * (dropM - friction.mu(h, ease) * stepM);
      let share = 1;
      let end = ending;
      if (after > 0) {
        v2[h] = after;
        if (after > maxV2[h]!) maxV2[h] = after;
        if (step.isFar && maxV2[h]! > this.#deadlyV2) end ??= 'far';
      } else {
        end = 'stops';
        // Speed squared falls evenly over the step.
        share = before === 0 ? 0 : before / (before - after);
      }
      if (share > farthest) farthest = share;
      if (end === null) {
        k++;
        continue;
      }
      this.#ends[h] = {
        ending: end,
        lengthM: this.#lengthM + share * step.alongM,
        dropM: this.#dropM + share * dropM,
        maxSpeedMS: Math.sqrt(maxV2[h]!),
      };
      this.alive--;
      sliding[k] = sliding[this.alive]!;
    }
    this.#lengthM += step.alongM;
    this.#dropM += dropM;
    return farthest;
  }
}
