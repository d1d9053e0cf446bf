import type { Figures } from '../assumptions/figures';
import type { Climber, Rope } from '../domain/rope-team';
import type { Draws } from './draws';
import { slideUntilTightM } from './free-slide';
import { ending, type Ending } from './one-slip';
import { anchorStrengthN } from './piece-strength';
import { fixedEndTensionN, gravityMS2 } from './rope-forces';

const radPerDeg = Math.PI / 180;

export interface PitchSetting {
  /** Highest first. */
  readonly climbers: readonly Climber[];
  readonly pitchM: number;
  readonly slopeDeg: number;
  readonly slopeSigmaDeg: number;
  readonly betaDeg: number;
  readonly figures: Figures;
}

/** Longest pitch a rope allows: what the knots and the climbers between need is taken off. */
export function longestPitchM(rope: Rope, climberCount: number, { pitch }: Figures): number {
  const leftM = rope.lengthM - pitch.ropeReserveM - pitch.ropePerClimberM * (climberCount - 2);
  return Math.max(0, Math.min(pitch.maxM, leftM));
}

/** One slip of a climber who is belayed from an anchor: the belayer is a fixed end. Same use as `OneSlip`. */
export class OnePitch {
  loadN = 0;
  readonly leadPulledOff = false;

  readonly #rise: number;
  readonly #aside: number;
  #sin = 0;
  #cos = 0;
  #easy = 0;
  #drawn = 0;

  constructor(
    readonly setting: PitchSetting,
    readonly draws: Draws,
  ) {
    this.#rise = Math.cos(setting.betaDeg * radPerDeg);
    this.#aside = Math.sin(setting.betaDeg * radPerDeg);
  }

  draw(index: number): void {
    const { setting, draws } = this;
    const { easyBelowDeg, easyOverDeg } = setting.figures.slope;
    const slopeDeg = Math.max(0, setting.slopeDeg + setting.slopeSigmaDeg * draws.slope[index]!);
    this.#drawn = index;
    this.#sin = Math.sin(slopeDeg * radPerDeg);
    this.#cos = Math.cos(slopeDeg * radPerDeg);
    this.#easy = Math.min(1, Math.max(0, (easyBelowDeg - slopeDeg) / easyOverDeg));
  }

  follow(slipper: number): Ending {
    const { setting, draws } = this;
    const i = this.#drawn;
    const climber = setting.climbers[slipper]!;
    const massKg = climber.massKg;
    const muSliding = draws.muSliding[i]!;
    const slidingN = massKg * gravityMS2 * (this.#sin - muSliding * this.#cos);
    this.loadN = 0;
    if (slidingN <= 0) return ending.itself;

    const share = setting.figures.ability[climber.ability].arrests;
    const able = draws.ability[slipper]![i]! < share + (1 - share) * this.#easy;
    const arrestingN = able
      ? massKg * gravityMS2 * (this.#sin - draws.muArresting[i]! * this.#cos)
      : slidingN;
    const reactionS = draws.reactionS[slipper]![i]!;
    const reactedM = (0.5 * slidingN * reactionS * reactionS) / massKg;
    const reactedSquared = (2 * slidingN * reactedM) / massKg;

    const leads = slipper === 0;
    const ropeM = leads ? draws.progress[i]! * setting.pitchM : 1 + draws.progress[i]! * setting.pitchM;
    const { runnerM } = setting.figures.pitch;
    const ratio = setting.figures.rope.carabinerRatio;
    let runner = leads ? Math.ceil(ropeM / runnerM) - 1 : 0;

    for (; ; runner--) {
      const toM = ropeM - runner * runnerM;
      const slackM = draws.belayedSlackM[i]!;
      const tightM = slideUntilTightM(toM, slackM, leads ? this.#rise : -this.#rise, this.#aside);
      const afterM = Math.max(0, tightM - reactedM);
      const speedSquared =
        tightM <= reactedM
          ? (2 * slidingN * tightM) / massKg
          : reactedSquared + (2 * arrestingN * afterM) / massKg;
      if (speedSquared <= 0) return ending.ownArrest;

      const driveN = Math.max(0, tightM <= reactedM ? slidingN : arrestingN);
      const stiffnessNPerM = draws.modulusN[i]! / Math.max(1, ropeM);
      const tensionN = fixedEndTensionN(driveN, massKg, Math.sqrt(speedSquared), stiffnessNPerM);
      const loadN = runner > 0 ? tensionN * (1 + ratio) : tensionN;
      if (loadN > this.loadN) this.loadN = loadN;
      if (runner <= 0) {
        const anchorN = anchorStrengthN(setting.figures, draws.strengthN[0]![i]!);
        return loadN <= anchorN ? ending.piece : ending.unheld;
      }
      if (loadN <= draws.strengthN[Math.min(runner, draws.strengthN.length - 1)]![i]!) return ending.piece;
    }
  }
}
