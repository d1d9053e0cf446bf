import { fixedEndTensionN } from '../../src/core/slip/rope-forces';

/** A fall as books print it, by its factor: the speed at which that length of rope is tight, given to the model's own formula. */
export function fallForceN(fall: {
  readonly driveN: number;
  readonly massKg: number;
  readonly factor: number;
  readonly modulusN: number;
  readonly ropeM: number;
}): number {
  const { driveN, massKg, factor, modulusN, ropeM } = fall;
  const speedMS = Math.sqrt((2 * driveN * factor * ropeM) / massKg);
  return fixedEndTensionN(driveN, massKg, speedMS, modulusN / ropeM);
}
