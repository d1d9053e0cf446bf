import type { Figures } from '../assumptions/figures';
import type { Climber, Rope } from '../domain/rope-team';
import type { Draws } from './draws';
import { slideAcceleration, slideUntilTightM, speedSquaredAfter } from './free-slide';
import { ending, type Ending } from './one-slip';
import { anchorStrengthN } from './piece-strength';
import { fixedEndTensionN } from './rope-forces';

const radPerDeg = Math.PI / 180;

/** Least rope between a climber and the belayer. */
const shortestRopeM = 1;

export interface PitchSetting {
  /** Highest first. */
  readonly climbers: readonly Climber[];
  readonly pitchM: number;
  readonly betaDeg: number;
  readonly figures: Figures;
}

/** Longest pitch a rope allows: what the ties and the climbers between need is taken off. */
export function longestPitchM(rope: Rope, climberCount: number, { pitch }: Figures): number {
  const leftM = rope.lengthM - pitch.ropeReserveM - pitch.ropePerClimberM * (climberCount - 2);
  return Math.max(0, Math.min(pitch.maxM, leftM));
}

/**
 * One slip of a climber who is belayed from an anchor: the belayer is a fixed end. Same use as `OneSlip`. The highest
 * climber is out over runners, the others have the belayer above. If the anchor fails, nothing else counts.
 */
export class OnePitch {
  /** Highest load that came onto a runner or the anchor in the slip last followed, N; 0 if none did. */
  loadN = 0;
  readonly leadPulledOff = false;

  readonly #rise: number;
  readonly #aside: number;
  readonly #arrestShare: Float64Array;
  readonly #massKg: Float64Array;
  #sin = 0;
  #cos = 0;
  #easy = 0;
  #drawn = 0;

  constructor(
    readonly setting: PitchSetting,
    readonly draws: Draws,
  ) {
    const { climbers, figures, betaDeg } = setting;
    this.#rise = Math.cos(betaDeg * radPerDeg);
    this.#aside = Math.sin(betaDeg * radPerDeg);
    this.#massKg = Float64Array.from(climbers, ({ massKg }) => massKg);
    this.#arrestShare = Float64Array.from(climbers, ({ ability }) => figures.ability[ability].arrests);
  }

  draw(index: number): void {
    this.#drawn = index;
  }

  standOn(slopeDeg: number): void {
    const { easyBelowDeg, easyOverDeg } = this.setting.figures.slope;
    this.#sin = Math.sin(slopeDeg * radPerDeg);
    this.#cos = Math.cos(slopeDeg * radPerDeg);
    this.#easy = Math.min(1, Math.max(0, (easyBelowDeg - slopeDeg) / easyOverDeg));
  }

  follow(slipper: number): Ending {
    const { pitch } = this.setting.figures;
    this.loadN = 0;
    if (this.#pull(this.draws.muSliding[this.#drawn]!) <= 0) return ending.itself;

    const climbedM = this.draws.progress[this.#drawn]! * this.setting.pitchM;
    if (slipper > 0) return this.#caught(slipper, shortestRopeM + climbedM, -this.#rise);

    let runner = Math.ceil(climbedM / pitch.runnerM) - 1;
    for (; runner > 0; runner--) {
      const end = this.#caughtByRunner(runner, climbedM);
      if (end !== null) return end;
    }
    return this.#caught(slipper, climbedM, this.#rise);
  }

  /** Drive over mass, m/s². */
  #pull(mu: number): number {
    return slideAcceleration(this.#sin, this.#cos, mu);
  }

  /** Square of the speed at which the rope is tight; not positive if the slipper has arrested before. */
  #speedSquaredAt(slipper: number, tightM: number): number {
    const sliding = this.#pull(this.draws.muSliding[this.#drawn]!);
    const reactedM = this.#reactedM(slipper);
    if (tightM <= reactedM) return speedSquaredAfter(0, sliding, tightM);
    const reactedMS = Math.sqrt(speedSquaredAfter(0, sliding, reactedM));
    return speedSquaredAfter(reactedMS, this.#pull(this.draws.muArresting[this.#drawn]!), tightM - reactedM);
  }

  /** How far the slipper slides before braking, m; Infinity if unable. */
  #reactedM(slipper: number): number {
    const share = this.#arrestShare[slipper]!;
    const able = this.draws.ability[slipper]![this.#drawn]! < share + (1 - share) * this.#easy;
    if (!able) return Infinity;
    const reactionS = this.draws.reactionS[slipper]![this.#drawn]!;
    return 0.5 * this.#pull(this.draws.muSliding[this.#drawn]!) * reactionS * reactionS;
  }

  #tightM(ropeM: number, rise: number): number {
    return slideUntilTightM(ropeM, this.draws.belayedSlackM[this.#drawn]!, rise, this.#aside);
  }

  #tensionN(slipper: number, tightM: number, speedSquared: number, ropeM: number): number {
    const brakes = tightM > this.#reactedM(slipper);
    const mu = (brakes ? this.draws.muArresting : this.draws.muSliding)[this.#drawn]!;
    const driveN = Math.max(0, this.#massKg[slipper]! * this.#pull(mu));
    const stiffnessNPerM = this.draws.modulusN[this.#drawn]! / Math.max(shortestRopeM, ropeM);
    return fixedEndTensionN(driveN, this.#massKg[slipper]!, Math.sqrt(speedSquared), stiffnessNPerM);
  }

  #caughtByRunner(runner: number, climbedM: number): Ending | null {
    const { pitch, rope } = this.setting.figures;
    const tightM = this.#tightM(climbedM - runner * pitch.runnerM, this.#rise);
    const speedSquared = this.#speedSquaredAt(0, tightM);
    if (speedSquared <= 0) return ending.ownArrest;
    const loadN = this.#tensionN(0, tightM, speedSquared, climbedM) * (1 + rope.carabinerRatio);
    return this.#bears(loadN, this.draws.strengthN[runner]![this.#drawn]!) ? ending.piece : null;
  }

  #caught(slipper: number, ropeM: number, rise: number): Ending {
    const tightM = this.#tightM(ropeM, rise);
    const speedSquared = this.#speedSquaredAt(slipper, tightM);
    if (speedSquared <= 0) return ending.ownArrest;
    const loadN = this.#tensionN(slipper, tightM, speedSquared, ropeM);
    const anchorN = anchorStrengthN(this.setting.figures, this.draws.strengthN[0]![this.#drawn]!);
    return this.#bears(loadN, anchorN) ? ending.piece : ending.unheld;
  }

  #bears(loadN: number, strengthN: number): boolean {
    if (loadN > this.loadN) this.loadN = loadN;
    return loadN <= strengthN;
  }
}
