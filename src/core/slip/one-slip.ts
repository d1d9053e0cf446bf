import type { Draws } from './draws';
import { slideTimeS, speedSquaredAfter } from './free-slide';
import { counterweightTensionN, fixedEndTensionN, hangingLoadN, pieceLoadN } from './rope-forces';
import { RopeTeamOnSlope, type SlipSetting } from './rope-team-on-slope';

/** How a slip ends, as an index into counts. */
export const ending = { itself: 0, ownArrest: 1, mates: 2, piece: 3, unheld: 4 } as const;
export type Ending = (typeof ending)[keyof typeof ending];

/** No end yet. */
const goesOn = -1;

const shortestRopeM = 1;

/**
 * Follows one slip from event to event until the slipper, the mates, a piece or nothing stops it. Made once for a figure;
 * `draw` and `standOn` take up what the slips of one draw share, `follow` follows one. None of them allocates.
 *
 * Those who slide are always neighbours on the rope, `top` to `bottom`, and move at one speed; `atM` is how far the slipper
 * has slid down the fall line. Of the ropes to the next climbers above and below, the first to tighten acts.
 *
 * A mate who is pulled down onto a piece is one act: nobody else is pulled in, and nobody who slides begins to brake, until
 * that piece has taken the load (judgement, the cautious reading: an act so short leaves no time to roll onto the axe).
 */
export class OneSlip {
  /** Highest load that came onto a piece in the slip last followed, N; 0 if none did. */
  loadN = 0;
  /** The highest climber was pulled off by another's slip. */
  leadPulledOff = false;
  /** Balance of the slide, J: work of gravity and friction, what sudden tightening took away, what moved at the end. */
  workJ = 0;
  lostJ = 0;
  movingJ = 0;

  readonly #team: RopeTeamOnSlope;
  /** How far the slipper had slid when this climber began to slide. */
  readonly #startM: Float64Array;
  /** First and last piece left in each interval; none if the first is past the last. */
  readonly #first: Int8Array;
  readonly #last: Int8Array;

  #slipper = 0;
  #top = 0;
  #bottom = 0;
  #massKg = 0;
  #driveN = 0;
  #speedMS = 0;
  #atM = 0;
  #timeS = 0;
  /** The slipper is able, and will brake once the reaction time has passed. */
  #willBrake = false;

  constructor(setting: SlipSetting, draws: Draws) {
    this.#team = new RopeTeamOnSlope(setting, draws);
    const n = setting.climbers.length;
    this.#startM = new Float64Array(n);
    this.#first = new Int8Array(n);
    this.#last = new Int8Array(n);
  }

  draw(index: number): void {
    this.#team.draw(index);
  }

  standOn(slopeDeg: number): void {
    this.#team.standOn(slopeDeg);
  }

  /** Follows the slip of one climber to its end. */
  follow(slipper: number): Ending {
    this.#begin(slipper);
    const end = this.#driveN <= 0 ? ending.itself : this.#slideToEnd();
    this.movingJ = end >= ending.piece ? 0.5 * this.#massKg * this.#speedMS * this.#speedMS : 0;
    return end;
  }

  #begin(slipper: number): void {
    const team = this.#team;
    for (let interval = 0; interval < team.count; interval++) {
      this.#first[interval] = 0;
      this.#last[interval] = team.piecesPerInterval - 1;
    }
    this.loadN = 0;
    this.leadPulledOff = false;
    this.workJ = 0;
    this.lostJ = 0;
    this.#slipper = slipper;
    this.#top = slipper;
    this.#bottom = slipper;
    this.#startM[slipper] = 0;
    this.#atM = 0;
    this.#timeS = 0;
    this.#speedMS = 0;
    this.#willBrake = team.arrests[slipper] === 1;
    this.#massKg = team.massKg[slipper]!;
    this.#driveN = team.pullN(slipper, team.muSliding);
  }

  #slideToEnd(): Ending {
    for (;;) {
      const aboveM = this.#aboveTightAtM();
      const belowM = this.#belowTightAtM();
      const nextM = Math.max(this.#atM, Math.min(aboveM, belowM));
      if (this.#willBrake && this.#brakesBefore(nextM)) continue;
      if (!this.#slidesTo(nextM)) return this.#top === this.#bottom ? ending.ownArrest : ending.mates;
      if (nextM === Infinity) return ending.unheld;
      const end = aboveM <= belowM ? this.#tightAbove() : this.#tightBelow();
      if (end !== goesOn) return end;
    }
  }

  /** Where the rope to the next climber above is tight, or to a device on it. */
  #aboveTightAtM(): number {
    const top = this.#top;
    if (top === 0) return Infinity;
    const team = this.#team;
    const tightM = this.#hasDevice(top - 1) ? team.deviceTightM[this.#last[top - 1]!]! : team.aboveTightM;
    return this.#startM[top]! + tightM;
  }

  /** Where the rope to the next climber below is tight, or over a piece on it. */
  #belowTightAtM(): number {
    const bottom = this.#bottom;
    const team = this.#team;
    if (bottom === team.count - 1) return Infinity;
    const overPiece = !team.beside && this.#hasPieces(bottom);
    return this.#startM[bottom]! + (overPiece ? team.leadTightM[this.#first[bottom]!]! : team.belowTightM);
  }

  #hasPieces(interval: number): boolean {
    return this.#first[interval]! <= this.#last[interval]!;
  }

  #hasDevice(interval: number): boolean {
    return interval < this.#team.devices && this.#hasPieces(interval);
  }

  /** Time until those sliding get there or come to rest; Infinity if neither. */
  #untilS(nextM: number): number {
    const acceleration = this.#driveN / this.#massKg;
    const leftM = nextM - this.#atM;
    if (leftM === 0) return 0;
    const speedSquared = speedSquaredAfter(this.#speedMS, acceleration, leftM);
    if (leftM === Infinity ? acceleration < 0 : speedSquared <= 0) return -this.#speedMS / acceleration;
    return leftM === Infinity ? Infinity : slideTimeS(this.#speedMS, Math.sqrt(speedSquared), leftM);
  }

  /** Slides on until the slipper brakes, if that is before the next event. */
  #brakesBefore(nextM: number): boolean {
    const team = this.#team;
    const untilS = this.#untilS(nextM);
    const waitS = Math.max(0, team.reactionS[this.#slipper]! - this.#timeS);
    if (untilS <= waitS) {
      this.#timeS += untilS;
      return false;
    }
    const acceleration = this.#driveN / this.#massKg;
    const movedM = (this.#speedMS + 0.5 * acceleration * waitS) * waitS;
    this.workJ += this.#driveN * movedM;
    this.#atM += movedM;
    this.#speedMS += acceleration * waitS;
    this.#willBrake = false;
    this.#driveN += team.pullN(this.#slipper, team.muArresting) - team.pullN(this.#slipper, team.muSliding);
    return true;
  }

  /** @returns false if those sliding come to rest before. */
  #slidesTo(nextM: number): boolean {
    const leftM = nextM - this.#atM;
    if (leftM === Infinity) {
      if (this.#driveN >= 0) return true;
    } else {
      const speedSquared = speedSquaredAfter(this.#speedMS, this.#driveN / this.#massKg, leftM);
      if (speedSquared > 0 || leftM === 0) {
        this.workJ += this.#driveN * leftM;
        this.#speedMS = Math.sqrt(speedSquared);
        this.#atM = nextM;
        return true;
      }
    }
    this.workJ -= 0.5 * this.#massKg * this.#speedMS * this.#speedMS;
    return false;
  }

  #tightAbove(): Ending | typeof goesOn {
    const interval = this.#top - 1;
    if (this.#hasDevice(interval)) return this.#deviceHolds(interval) ? ending.piece : goesOn;
    this.#join(interval);
    this.#top = interval;
    return this.#hasPieces(interval) ? this.#pulledOntoPieces(interval, interval) : goesOn;
  }

  #tightBelow(): Ending | typeof goesOn {
    const interval = this.#bottom;
    if (this.#hasPieces(interval) && !this.#team.beside) {
      return this.#leadPieceHolds(interval) ? ending.piece : goesOn;
    }
    this.#join(interval + 1);
    this.#bottom = interval + 1;
    return this.#hasPieces(interval) ? this.#pulledOntoPieces(interval, interval + 1) : goesOn;
  }

  /** A mate is pulled in: momentum is shared. */
  #join(mate: number): void {
    const team = this.#team;
    const mateKg = team.massKg[mate]!;
    const joinedKg = this.#massKg + mateKg;
    this.lostJ += (0.5 * this.#massKg * mateKg * this.#speedMS * this.#speedMS) / joinedKg;
    this.#speedMS *= this.#massKg / joinedKg;
    this.#massKg = joinedKg;
    this.#driveN += this.#matePullN(mate);
    this.#startM[mate] = this.#atM;
    if (mate === 0) this.leadPulledOff = true;
  }

  #matePullN(mate: number): number {
    const team = this.#team;
    return team.pullN(mate, team.isReady[mate] === 1 ? team.muArresting : team.muSliding);
  }

  /** A mate with a piece between them and the slide is dragged to it; there all hang on it, on both sides. */
  #pulledOntoPieces(interval: number, mate: number): Ending | typeof goesOn {
    const team = this.#team;
    const turnedN = (1 - team.hangRatio) * this.#matePullN(mate);
    this.#driveN -= turnedN;
    while (this.#hasPieces(interval)) {
      const piece = mate === interval ? this.#first[interval]!++ : this.#last[interval]!--;
      const atM = team.pieceAtM[piece]!;
      const nextM = this.#startM[mate]! + (mate === interval ? atM : team.intervalM - atM);
      if (this.#willBrake) this.#timeS += this.#untilS(nextM);
      if (!this.#slidesTo(nextM)) return ending.mates;
      const driveN = Math.max(0, this.#driveN);
      const loadN = hangingLoadN(driveN, this.#massKg, this.#speedMS, team.modulusN / team.intervalM);
      if (this.#bears(loadN, team.strengthN[2 * interval + piece]!)) return ending.piece;
    }
    this.#driveN += turnedN;
    return goesOn;
  }

  /** A fall past a piece with the mate below it as counterweight. */
  #leadPieceHolds(interval: number): boolean {
    const team = this.#team;
    const mate = interval + 1;
    const tensionN = counterweightTensionN(
      Math.max(0, this.#driveN),
      this.#massKg,
      this.#speedMS,
      team.modulusN / team.intervalM,
      team.massKg[mate]!,
      team.holdsN(mate),
      team.leadRatio,
    );
    const loadN = pieceLoadN(tensionN, team.leadRatio * tensionN, team.betaRad);
    return this.#bears(loadN, team.strengthN[2 * interval + this.#first[interval]!++]!);
  }

  /** A device on the piece stops the climber below it at once; the mate above feels nothing. */
  #deviceHolds(interval: number): boolean {
    const team = this.#team;
    const piece = this.#last[interval]!--;
    const ropeM = Math.max(shortestRopeM, team.intervalM - team.pieceAtM[piece]!);
    const driveN = Math.max(0, this.#driveN);
    const loadN = fixedEndTensionN(driveN, this.#massKg, this.#speedMS, team.modulusN / ropeM);
    return this.#bears(loadN, Math.min(team.deviceLimitN, team.strengthN[2 * interval + piece]!));
  }

  #bears(loadN: number, strengthN: number): boolean {
    if (loadN > this.loadN) this.loadN = loadN;
    return loadN <= strengthN;
  }
}
