import type { Figures } from '../assumptions/figures';
import type { OwnPace } from '../domain/project';
import { usualPace } from './own-pace';
import { actS, speedMS, type Level } from './level';
import type { PaceEvent } from './pace-event';

/** A crevasse crossed one at a time: preparing with its anchor, then each climber over. Seconds. */
export function crossingS(
  { lengthM, climbers }: { lengthM: number; climbers: number },
  figures: Figures,
  level: Level,
  own: OwnPace = usualPace,
): number {
  const eachS = (lengthM / speedMS(figures.speed.crossing, level)) * own.walkingFactor;
  return actS(figures.act.prepareCrossing, level) + climbers * eachS;
}

export function crossingEvents(
  { lengthM, climbers }: { lengthM: number; climbers: number },
  figures: Figures,
  own: OwnPace = usualPace,
): PaceEvent[] {
  const readyS = actS(figures.act.prepareCrossing, 'usual');
  const eachS = (lengthM / speedMS(figures.speed.crossing, 'usual')) * own.walkingFactor;
  return [
    { who: 0, what: 'prepare', fromS: 0, toS: readyS, fromM: 0, toM: 0 },
    ...Array.from({ length: climbers }, (_, who): PaceEvent => {
      const fromS = readyS + who * eachS;
      return { who, what: 'walk', fromS, toS: fromS + eachS, fromM: 0, toM: lengthM };
    }),
  ];
}
