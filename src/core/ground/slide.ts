import type { Figures } from '../assumptions/figures';
import type { LngLat } from '../domain/coordinates';
import type { Mark } from '../domain/mark';
import type { RunOutEnding } from '../domain/station';
import { SlidePlace, type StepEnd } from './slide-place';
import { SlideSpeeds, type SlideEnd } from './slide-speeds';
import type { Terrain } from './terrain';

/** Below this slope there is no fall line to follow, and a slide goes straight on. Judgement. */
const flatTan = Math.tan((0.5 * Math.PI) / 180);
/** From here on a slide that can only be called deadly is not followed any further, metres. */
const farM = 1000;
/** No slide is followed further than this, metres. */
const farthestM = 50_000;

/**
 * Follows slides from rest down the fall line. The way a slide takes does not depend on friction, so all hardnesses slide
 * together: one walk, six speeds.
 *
 * Each step goes half a cell down the steepest gradient of the smooth surface, turned by a fixed angle; what counts is the
 * height really lost. Where the ground is flat, or falls back against the way the slide is going (a pit, the far side of a
 * valley), it goes straight on and pays for the climb.
 */
export class Slides {
  readonly #place: SlidePlace;
  readonly #speeds: SlideSpeeds;
  readonly #dropTan: number;
  readonly #dropLengthM: number;
  #headingE = 0;
  #headingN = 0;

  constructor(
    readonly terrain: Terrain,
    marks: readonly Mark[],
    figures: Figures,
  ) {
    this.#place = new SlidePlace(terrain, marks, figures.runOut.hazardReachM);
    this.#speeds = new SlideSpeeds(figures);
    this.#dropTan = Math.tan((figures.runOut.dropSlopeDeg * Math.PI) / 180);
    this.#dropLengthM = figures.runOut.dropLengthM;
  }

  /**
   * One slide for each hardness asked for.
   *
   * @param turnDeg turn away from the fall line at every step, clockwise seen from above
   * @param asked indices into `hardnesses`
   * @param path filled with the way of the longest of them, where wanted
   * @returns by index of hardness; null where a block was not in memory (load what is wanted, then ask again), or where
   * there is no ground to start on
   */
  follow(
    start: LngLat,
    turnDeg: number,
    asked: readonly number[],
    path: LngLat[] | null,
  ): readonly (SlideEnd | undefined)[] | null {
    const place = this.#place;
    const speeds = this.#speeds;
    if (!place.start(start)) return null;
    path?.push(start);
    speeds.start(asked);
    this.#headingE = 0;
    this.#headingN = 0;
    const turnCos = Math.cos((turnDeg * Math.PI) / 180);
    const turnSin = Math.sin((turnDeg * Math.PI) / 180);
    let steepM = 0;
    while (speeds.alive > 0) {
      const { stepM, slopeTan } = place;
      const unknown = this.#step(turnCos, turnSin);
      if (unknown === 'not-in-memory') return null;
      const { dropM } = place;
      const alongM = Math.sqrt(stepM * stepM + dropM * dropM);
      steepM = slopeTan > this.#dropTan ? steepM + alongM : 0;
      let ending: RunOutEnding | null = null;
      if (unknown !== 'none') ending = unknown;
      else if (place.isCaught()) ending = 'hazard';
      else if (steepM >= this.#dropLengthM) ending = 'drop';
      else if (speeds.lengthM >= farthestM) ending = 'far';
      const isFar = speeds.lengthM >= farM;
      const share = speeds.advance({ stepM, dropM, alongM, slopeTan, ending, isFar });
      if (share > 0) path?.push(place.position(share));
    }
    return speeds.ends;
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
