import type { Question } from '../../domain/problem';
import { highestM } from './cell-meaning';
import { highestLandM } from './highest-land';
import { rank, type Survey } from './survey';

export const unitQuestion: Question = {
  kind: 'elevation-unit',
  flag: '--elevation-unit m|ft|usft|cm',
  choices: [
    { value: 'm', label: 'metres' },
    { value: 'ft', label: 'feet (international)' },
    { value: 'usft', label: 'US survey feet' },
    { value: 'cm', label: 'centimetres' },
  ],
};

export interface Silent {
  readonly survey: Survey;
  /** Metres per unit of the map's x and y; null for degrees. */
  readonly mapUnitM: number | null;
  readonly lngDeg: number;
  readonly latDeg: number;
}

/**
 * Why a file that does not state its vertical unit should be asked about, or null where metres are the plain reading.
 * Judgement, tuned so that ordinary mountains are never asked about and no usual foot or centimetre file slips through:
 *
 * 1. the map itself is in feet: whoever surveys in feet mostly levels in feet;
 * 2. more than one cell in a hundred lies above 9 000 m, where there is no land;
 * 3. more than one cell in a hundred lies over 10 % above the highest land of that region, and read as feet all but one
 *    in a thousand would be land there.
 *
 * Feet of low hills in a metric map look like metres of high ones: nothing in such a file tells. The note says so.
 */
export function unitDoubt({ survey, mapUnitM, lngDeg, latDeg }: Silent): string | null {
  const low = Math.round(rank(survey, 0));
  const high = Math.round(rank(survey, 0.999));
  const range = `elevations run from ${low} to ${high}`;
  if (mapUnitM !== null && isFoot(mapUnitM))
    return `${range} and the file does not say in what; its map is in feet`;
  const upper = rank(survey, 0.99);
  if (upper > highestM) return `${range}, which cannot be metres`;
  const topM = highestLandM(lngDeg, latDeg);
  if (upper > topM * 1.1 && rank(survey, 0.999) * 0.3048 <= topM * 1.05)
    return `${range}, but the highest land in that region has ${topM} m: they look like feet`;
  return null;
}

const isFoot = (unitM: number) => unitM > 0.3 && unitM < 0.31;
