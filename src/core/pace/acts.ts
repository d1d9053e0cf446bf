import { bestPlacement, type Figures } from '../assumptions/figures';
import type { OwnPace } from '../domain/project';
import type { Snow } from '../domain/snow';
import type { BelayActs } from './belay-options';
import { actS, speedMS, type Level } from './level';
import { usualPace } from './own-pace';

/** Seconds to place and to remove one piece of the placement this snow asks for; null on ice, where none holds. */
export function pieceActs(snow: Snow, figures: Figures, level: Level, own: OwnPace = usualPace) {
  const { act } = figures;
  const placement = bestPlacement[snow.hardness];
  if (placement === 'none') return null;
  const place = { upright: act.placeUpright, 'upright-slot': act.placeUprightSlot, 't-slot': act.placeTSlot }[
    placement
  ];
  const remove = placement === 't-slot' ? act.removeTSlot : act.removeUpright;
  return {
    placeS: actS(place, level) * own.placementFactor,
    removeS: actS(remove, level) * own.placementFactor,
  };
}

/** Seconds for each act of a running belay; null on ice. */
export function belayActs(
  snow: Snow,
  figures: Figures,
  level: Level,
  own: OwnPace = usualPace,
): BelayActs | null {
  const piece = pieceActs(snow, figures, level, own);
  if (piece === null) return null;
  const { clip, stance, handover } = figures.act;
  return {
    ...piece,
    clipS: actS(clip, level) * own.placementFactor,
    stanceS: actS(stance, level),
    handoverS: actS(handover, level),
  };
}

export const runningSpeedMS = (figures: Figures, level: Level, own: OwnPace = usualPace): number =>
  speedMS(figures.speed.runningBelay, level) / own.walkingFactor;

/** Seconds and speeds of a pitched belay. */
export interface PitchActs {
  readonly placeS: number;
  readonly removeS: number;
  /** Building an anchor: two placings. */
  readonly anchorS: number;
  /** Change-over at a stance, with this many climbers. */
  readonly changeS: number;
  readonly leadMS: number;
  readonly followMS: number;
}

export function pitchActs(
  snow: Snow,
  climbers: number,
  figures: Figures,
  level: Level,
  own: OwnPace = usualPace,
): PitchActs | null {
  const piece = pieceActs(snow, figures, level, own);
  if (piece === null) return null;
  return {
    ...piece,
    anchorS: 2 * piece.placeS,
    changeS: actS(figures.act.change, level) * (climbers - 1),
    leadMS: speedMS(figures.speed.pitchLead, level) / own.walkingFactor,
    followMS: speedMS(figures.speed.pitchFollow, level) / own.walkingFactor,
  };
}
