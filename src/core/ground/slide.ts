import type { Figures } from '../assumptions/figures';
import type { LngLat } from '../domain/coordinates';
import type { Mark } from '../domain/mark';
import { hardnesses } from '../domain/snow';
import type { RunOutEnding } from '../domain/station';
import { Friction } from './friction';
import { SlidePlace, type StepEnd } from './slide-place';
import type { Terrain } from './terrain';

/** Standard gravity, m/s^2 (CGPM 1901). */
const gravityMS2 = 9.80665;
/** Below this slope there is no fall line to follow, and a slide goes straight on. Judgement. */
const flatTan = Math.tan((0.5 * Math.PI) / 180);
/** From here on a slide that can only be called deadly is not followed any further, metres. */
const farM = 2000;
/** No slide is followed further than this, metres. */
const farthestM = 50_000;

/** What a slide did on one hardness. */
export interface SlideEnd {
  readonly ending: RunOutEnding;
  /** Along the slope. */
  readonly lengthM: number;
  readonly dropM: number;
  readonly maxSpeedMS: number;
}

/**
 * Follows slides from rest down the fall line. The way a slide takes does not depend on friction, so all hardnesses slide
 * together: one walk, six speeds.
 *
 * Each step goes half a cell down the steepest gradient of the smooth surface, turned by a fixed angle; energy changes by
 * what was really lost in height less friction over the ground covered, v^2 += 2 g (drop - mu * horizontal length), which
 * is v^2 += 2 g (sin - mu cos) ds along the step. Where the ground is flat, or falls back against the way the slide is
 * going (a pit, the far side of a valley), it goes straight on and pays for the climb.
 *
 * @source energy line: A. Heim, "Bergsturz und Menschenleben" (1932).
 */
export class Slides {
  readonly #place: SlidePlace;
  readonly #friction: Friction;
  readonly #dropTan: number;
  readonly #dropLengthM: number;
  readonly #deadlyV2: number;
  readonly #v2 = new Float64Array(hardnesses.length);
  readonly #maxV2 = new Float64Array(hardnesses.length);
  #headingE = 0;
  #headingN = 0;

  constructor(
    readonly terrain: Terrain,
    marks: readonly Mark[],
    figures: Figures,
  ) {
    this.#place = new SlidePlace(terrain, marks, figures.runOut.hazardReachM);
    this.#friction = new Friction(figures);
    this.#dropTan = Math.tan((figures.runOut.dropSlopeDeg * Math.PI) / 180);
    this.#dropLengthM = figures.runOut.dropLengthM;
    this.#deadlyV2 = figures.runOut.injuringMaxMS ** 2;
  }

  /**
   * One slide for each hardness asked for.
   *
   * @param turnDeg turn away from the fall line at every step, clockwise seen from above
   * @param asked indices into `hardnesses`
   * @param path filled with the way of the longest of them, where wanted
   * @returns in step with `asked`; null where a block was not in memory (load what is wanted, then ask again), or where
   * there is no ground to start on
   */
  follow(
    start: LngLat,
    turnDeg: number,
    asked: readonly number[],
    path: LngLat[] | null,
  ): readonly SlideEnd[] | null {
    const place = this.#place;
    if (!place.start(start)) return null;
    path?.push(start);
    this.#v2.fill(0);
    this.#maxV2.fill(0);
    this.#headingE = 0;
    this.#headingN = 0;
    const turnCos = Math.cos((turnDeg * Math.PI) / 180);
    const turnSin = Math.sin((turnDeg * Math.PI) / 180);
    const ends = asked.map((): SlideEnd | null => null);
    let alive = asked.length;
    let lengthM = 0;
    let dropM = 0;
    let steepM = 0;
    while (alive > 0) {
      const { stepM, slopeTan } = place;
      const unknown = this.#step(turnCos, turnSin);
      if (unknown === 'not-in-memory') return null;
      const alongM = Math.sqrt(stepM * stepM + place.dropM * place.dropM);
      steepM = slopeTan > this.#dropTan ? steepM + alongM : 0;
      let ending: RunOutEnding | null = null;
      if (unknown !== 'none') ending = unknown;
      else if (place.isCaught()) ending = 'hazard';
      else if (steepM >= this.#dropLengthM) ending = 'drop';
      else if (lengthM >= farthestM) ending = 'far';

      const ease = this.#friction.ease(slopeTan);
      let share = 0;
      for (let i = 0; i < asked.length; i++) {
        if (ends[i] !== null) continue;
        const h = asked[i]!;
        const before = this.#v2[h]!;
        const after = before + 2 * gravityMS2 * (place.dropM - this.#friction.mu(h, ease) * stepM);
        if (after > this.#maxV2[h]!) this.#maxV2[h] = after;
        this.#v2[h] = after;
        let end: RunOutEnding | null = ending;
        let part = 1;
        if (after <= 0) {
          end = 'stops';
          // Speed squared falls evenly over the step.
          part = before === 0 ? 0 : before / (before - after);
        } else if (lengthM >= farM && this.#maxV2[h]! > this.#deadlyV2) {
          end ??= 'far';
        }
        share = Math.max(share, part);
        if (end === null) continue;
        ends[i] = {
          ending: end,
          lengthM: lengthM + part * alongM,
          dropM: dropM + part * place.dropM,
          maxSpeedMS: Math.sqrt(this.#maxV2[h]!),
        };
        alive--;
      }
      lengthM += alongM;
      dropM += place.dropM;
      if (share > 0) path?.push(place.position(share));
    }
    return ends as SlideEnd[];
  }

  /**
   * One step towards the turned fall line; straight on where the ground is flat, where it falls back against the way the
   * slide is going, or where the turn would only lead over the bottom and up again.
   */
  #step(turnCos: number, turnSin: number): StepEnd {
    const place = this.#place;
    const { gradE, gradN, slopeTan } = place;
    const isFirst = this.#headingE === 0 && this.#headingN === 0;
    if (slopeTan > (isFirst ? 0 : flatTan)) {
      const downE = (-gradE * turnCos - gradN * turnSin) / slopeTan;
      const downN = (-gradN * turnCos + gradE * turnSin) / slopeTan;
      if (isFirst || downE * this.#headingE + downN * this.#headingN > 0) {
        const end = place.step(downE, downN);
        if (isFirst || end !== 'none' || place.dropM >= 0) {
          this.#headingE = downE;
          this.#headingN = downN;
          return end;
        }
        place.stepBack();
      }
    }
    return place.step(this.#headingE, this.#headingN);
  }
}
