import type { Figures } from '../assumptions/figures';
import type { Variant } from '../domain/mode';
import type { Party, Rope } from '../domain/rope-team';
import type { Snow } from '../domain/snow';
import type { Draws } from './draws';
import { longestPitchM, OnePitch } from './one-pitch';
import { OneSlip } from './one-slip';
import { medianStrengthKN } from './piece-strength';

/** How a team moves, wherever that is. */
export interface WayToGo {
  /** Climbers from the lead to the last, as on the rope. */
  readonly party: Party;
  readonly variant: Variant;
  readonly snow: Snow;
  readonly goingDown?: boolean;
  /** A capture device on every piece, whatever the rack holds. */
  readonly allDevices?: boolean;
}

/** What follows slips of a team: `draw`, `standOn` a slope, `follow` one climber's slip. Climbers count from the highest. */
export type SlipFollower = OneSlip | OnePitch;

export function slipFollower(way: WayToGo, betaDeg: number, figures: Figures, draws: Draws): SlipFollower {
  const { party, variant, snow, goingDown = false } = way;
  const climbers = byHeight(party.climbers, goingDown);
  const ground = { climbers, betaDeg: foldedBetaDeg(betaDeg), figures };
  if (variant === 'pitched') {
    return new OnePitch({ ...ground, pitchM: longestPitchM(party.rope, climbers.length, figures) }, draws);
  }
  const team = {
    ...ground,
    intervalM: party.rope.intervalM,
    piecesPerInterval: piecesPerInterval(variant, medianStrengthKN(figures, snow)),
    devices: variant === 'running-capture' && !goingDown ? devicesOnPieces(way) : 0,
    goingDown,
  };
  return new OneSlip(team, draws);
}

/** Highest first: going down that is the last on the rope. */
export function byHeight<T>(onRope: readonly T[], goingDown: boolean): readonly T[] {
  return goingDown ? onRope.toReversed() : onRope;
}

/** Line and fall line: 0 straight up or down, 90 across, whichever way one goes. */
export function foldedBetaDeg(betaDeg: number): number {
  const turned = Math.abs(betaDeg) % 180;
  return Math.min(turned, 180 - turned);
}

/** Where snow holds nothing at all there is no piece. */
function piecesPerInterval(variant: Variant, medianKN: number): 0 | 1 | 2 {
  if (variant === 'roped' || medianKN <= 0) return 0;
  return variant === 'running-double' ? 2 : 1;
}

/** Between the pieces of a running belay, m; null where there is none. */
export function spacingM(variant: Variant, { intervalM }: Rope): number | null {
  if (variant === 'roped' || variant === 'pitched') return null;
  return variant === 'running-double' ? intervalM / 2 : intervalM;
}

/** One device stays in the lead's hand for the next piece. */
export function devicesOnPieces({
  party,
  allDevices = false,
}: Pick<WayToGo, 'party' | 'allDevices'>): number {
  return allDevices ? Infinity : Math.max(0, party.rack.captureDevices - 1);
}
