import { gravityMS2 } from '../domain/gravity';

/** Mass of the fall in the standard rope test (EN 892), kg: a single rope and a half rope. */
export const testMassKg = { single: 80, half: 55 } as const;

/**
 * Peak rope tension when a fall tightens a rope tied to a fixed end. Half of it is reached by a still load (F = 2 D).
 *
 * @param driveN net pull down the slope, m g (sin θ − μ cos θ); not negative.
 * @param momentum mass in kg and speed in m/s at the moment the rope is tight.
 * @param stiffnessNPerM modulus over length of rope.
 * @source A. Wexler, "The Theory of Belaying", American Alpine Journal 1950: F = W + √(W² + 2 W M h/L), with
 *   W h = ½ m v² for the fall before the rope is tight.
 */
export function fixedEndTensionN(
  driveN: number,
  massKg: number,
  speedMS: number,
  stiffnessNPerM: number,
): number {
  return driveN + Math.sqrt(driveN * driveN + stiffnessNPerM * massKg * speedMS * speedMS);
}

/**
 * Rope modulus from the impact force on the label: the equation above solved for M at the standard test fall.
 *
 * @returns newtons per unit strain.
 * @source EN 892 test fall (fall factor 1.77, 80 kg on a single rope, 55 kg on a half rope).
 */
export function labelModulusN(
  impactForceN: number,
  testFallFactor: number,
  massKg: number = testMassKg.single,
): number {
  const weightN = massKg * gravityMS2;
  return (impactForceN * (impactForceN - 2 * weightN)) / (2 * weightN * testFallFactor);
}

/**
 * Slow modulus from the static elongation on the label, which is measured with 80 kg (EN 892; the mass from memory).
 *
 * @returns newtons per unit strain.
 */
export function staticModulusN(elongationPct: number): number {
  return (testMassKg.single * gravityMS2) / (elongationPct / 100);
}

/** Tension ratio over a carabiner that turns the rope by less than half a turn: capstan law, so a power of the full turn's. */
export function turnedRatio(fullTurnRatio: number, turnRad: number): number {
  return Math.pow(fullTurnRatio, turnRad / Math.PI);
}

/** Load on a piece from its two rope legs: vector sum at the angle between the pulls, 0 when both pull the same way. */
export function pieceLoadN(legN: number, otherLegN: number, angleRad: number): number {
  return Math.sqrt(legN * legN + otherLegN * otherLegN + 2 * legN * otherLegN * Math.cos(angleRad));
}

/**
 * Peak tension on the falling side when the far end of the rope is a climber who yields: two masses on one spring with
 * friction where the rope turns. As long as the mate's hold is not exceeded they are a fixed end; then they are dragged up.
 *
 * @param mateHoldsN what the mate resists before moving up.
 * @param ratio mate's tension over the faller's.
 */
export function counterweightTensionN(
  driveN: number,
  massKg: number,
  speedMS: number,
  stiffnessNPerM: number,
  mateMassKg: number,
  mateHoldsN: number,
  ratio: number,
): number {
  const fixedEndN = fixedEndTensionN(driveN, massKg, speedMS, stiffnessNPerM);
  const yieldsAtN = mateHoldsN / ratio;
  if (fixedEndN <= yieldsAtN) return fixedEndN;

  const yieldStretchM = yieldsAtN / stiffnessNPerM;
  const speedSquared =
    speedMS * speedMS +
    (2 / massKg) * (driveN * yieldStretchM - 0.5 * stiffnessNPerM * yieldStretchM * yieldStretchM);
  const omegaSquared = stiffnessNPerM * (1 / massKg + ratio / mateMassKg);
  const restStretchM = (driveN / massKg + mateHoldsN / mateMassKg) / omegaSquared;
  const swingM = yieldStretchM - restStretchM;
  const peakN =
    stiffnessNPerM * (restStretchM + Math.sqrt(swingM * swingM + Math.max(0, speedSquared) / omegaSquared));
  return Math.min(peakN, fixedEndN);
}

/** Load on a piece with a falling group hanging on both sides of it: two strands, so four times the stiffness of the whole rope. */
export function hangingLoadN(
  driveN: number,
  massKg: number,
  speedMS: number,
  stiffnessNPerM: number,
): number {
  return fixedEndTensionN(driveN, massKg, speedMS, 4 * stiffnessNPerM);
}
