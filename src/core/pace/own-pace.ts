import type { OwnPace } from '../domain/project';

export const usualPace: OwnPace = { walkingFactor: 1, walkingByGrade: [], placementFactor: 1 };

/** How steeply the way itself rises or falls, degrees: classes a recorded day is read by. Judgement. */
export const gradeClassesDeg: readonly (readonly [fromDeg: number, toDeg: number])[] = [
  [0, 10],
  [10, 20],
  [20, 30],
  [30, 90],
];

/** The team's factor on walking time where the way has this grade (degrees, either sign): of its class where one is known. */
export function walkingFactorAt({ walkingFactor, walkingByGrade }: OwnPace, gradeDeg: number): number {
  const steepness = Math.abs(gradeDeg);
  const known = walkingByGrade.find(({ fromDeg, toDeg }) => steepness >= fromDeg && steepness < toDeg);
  return known?.factor ?? walkingFactor;
}
