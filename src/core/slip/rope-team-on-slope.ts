import type { Figures } from '../assumptions/figures';
import type { Climber } from '../domain/rope-team';
import type { Draws } from './draws';
import { slideAcceleration, slideUntilTightM } from './free-slide';
import { turnedRatio } from './rope-forces';

const radPerDeg = Math.PI / 180;

/** From this angle between line and fall line on, neighbours stand beside each other, not above and below. */
const besideFromDeg = 60;

/** What stays the same over all slips of one figure. */
export interface SlipSetting {
  /** Highest first. */
  readonly climbers: readonly Climber[];
  readonly intervalM: number;
  readonly piecesPerInterval: 0 | 1 | 2;
  /** Intervals, from the highest, whose piece carries a capture device. */
  readonly devices: number;
  readonly goingDown: boolean;
  /** Between line and fall line, 0 to 90. */
  readonly betaDeg: number;
  readonly figures: Figures;
}

/**
 * Climbers and pieces on one slope, as one draw has it. Made once for a figure; `draw` takes up a draw and
 * `standOn` a slope, without allocating. Indices count from the highest climber; interval i lies below climber i; pieces of an interval count from its upper end.
 */
export class RopeTeamOnSlope {
  readonly count: number;
  readonly massKg: Float64Array;
  readonly intervalM: number;
  readonly piecesPerInterval: number;
  readonly devices: number;
  readonly beside: boolean;
  readonly betaRad: number;
  /** Tension of a mate below over the faller's, across a piece between them. */
  readonly leadRatio: number;
  /** What a mate hanging over a piece adds to the drive. */
  readonly hangRatio: number;
  readonly deviceLimitN: number;

  muSliding = 0;
  muArresting = 0;
  modulusN = 0;
  /** Slide until the rope to a neighbour is tight. */
  aboveTightM = 0;
  belowTightM = 0;
  /** Per climber: 1 if able. */
  readonly arrests: Uint8Array;
  readonly isReady: Uint8Array;
  readonly reactionS: Float64Array;
  /** Per piece of an interval: rope from the upper climber, slide of the upper climber, slide of the lower with a device. */
  readonly pieceAtM = new Float64Array(2);
  readonly leadTightM = new Float64Array(2);
  readonly deviceTightM = new Float64Array(2);
  /** Two for each interval. */
  readonly strengthN: Float64Array;

  readonly #rise: number;
  readonly #aside: number;
  readonly #arrestShare: Float64Array;
  readonly #readyShare: Float64Array;
  readonly #counterMateMu: number;
  #drawn = 0;
  #sin = 0;
  #cos = 0;

  constructor(
    readonly setting: SlipSetting,
    readonly draws: Draws,
  ) {
    const { climbers, figures } = setting;
    const { ability, rope } = figures;
    this.count = climbers.length;
    this.massKg = Float64Array.from(climbers, ({ massKg }) => massKg);
    this.intervalM = setting.intervalM;
    this.piecesPerInterval = setting.piecesPerInterval;
    this.devices = setting.devices;
    this.beside = setting.betaDeg >= besideFromDeg;
    this.betaRad = setting.betaDeg * radPerDeg;
    this.leadRatio = turnedRatio(rope.carabinerRatio, Math.PI - this.betaRad);
    this.hangRatio = turnedRatio(rope.carabinerRatio, this.betaRad);
    this.deviceLimitN = 1000 * figures.piece.captureDeviceKN;
    this.#rise = Math.cos(this.betaRad);
    this.#aside = Math.sin(this.betaRad);
    this.#arrestShare = Float64Array.from(climbers, (climber) => ability[climber.ability].arrests);
    this.#readyShare = Float64Array.from(climbers, (climber) => ability[climber.ability].readyWhenPulled);
    this.#counterMateMu = figures.rule.counterMateMu;
    this.arrests = new Uint8Array(this.count);
    this.isReady = new Uint8Array(this.count);
    this.reactionS = new Float64Array(this.count);
    this.strengthN = new Float64Array(2 * this.count);
  }

  /** Rope, pieces and reactions of one draw. `standOn` must follow. */
  draw(index: number): void {
    const { draws, intervalM } = this;
    this.#drawn = index;
    this.muSliding = draws.muSliding[index]!;
    this.muArresting = draws.muArresting[index]!;
    this.modulusN = draws.modulusN[index]!;
    for (let i = 0; i < this.count; i++) this.reactionS[i] = draws.reactionS[i]![index]!;
    const slackM = draws.slackM[index]!;
    this.aboveTightM = slideUntilTightM(intervalM, slackM, -this.#rise, this.#aside);
    this.belowTightM = slideUntilTightM(intervalM, slackM, this.#rise, this.#aside);
    if (this.piecesPerInterval > 0) this.#drawPieces(index, slackM);
  }

  #drawPieces(index: number, slackM: number): void {
    const { draws, intervalM } = this;
    const spacingM = intervalM / this.piecesPerInterval;
    const pastM = draws.progress[index]! * spacingM;
    const firstM = this.setting.goingDown ? spacingM - pastM : pastM;
    for (let piece = 0; piece < this.piecesPerInterval; piece++) {
      const atM = firstM + piece * spacingM;
      this.pieceAtM[piece] = atM;
      this.leadTightM[piece] = slideUntilTightM(atM, slackM, this.#rise, this.#aside);
      this.deviceTightM[piece] = slideUntilTightM(intervalM - atM, slackM, -this.#rise, this.#aside);
      for (let slot = piece; slot < 2 * (this.count - 1); slot += 2) {
        this.strengthN[slot] = draws.strengthN[slot]![index]!;
      }
    }
  }

  /** Puts the team as drawn on a slope: who is able depends on it. */
  standOn(slopeDeg: number): void {
    const { draws } = this;
    const { easyBelowDeg, easyOverDeg } = this.setting.figures.slope;
    this.#sin = Math.sin(slopeDeg * radPerDeg);
    this.#cos = Math.cos(slopeDeg * radPerDeg);
    const easy = Math.min(1, Math.max(0, (easyBelowDeg - slopeDeg) / easyOverDeg));
    for (let i = 0; i < this.count; i++) {
      const u = draws.ability[i]![this.#drawn]!;
      this.arrests[i] = u < eased(this.#arrestShare[i]!, easy) ? 1 : 0;
      this.isReady[i] = u < eased(this.#readyShare[i]!, easy) ? 1 : 0;
    }
  }

  /** Net pull of a climber down the slope, N. */
  pullN(climber: number, mu: number): number {
    return this.massKg[climber]! * slideAcceleration(this.#sin, this.#cos, mu);
  }

  /** What a mate on the far side of a piece resists before being dragged up, N. */
  holdsN(mate: number): number {
    const mu = this.isReady[mate] === 1 ? this.muArresting : this.#counterMateMu;
    return this.massKg[mate]! * slideAcceleration(this.#sin, this.#cos, -mu); // friction is on their side
  }
}

/** On gentle ground anybody stops. */
const eased = (share: number, easy: number): number => share + (1 - share) * easy;
