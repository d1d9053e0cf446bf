import { gravityMS2 } from '../domain/gravity';

/** Acceleration down a slope of that sine and cosine under Coulomb friction, m/s²; negative where friction wins. */
export function slideAcceleration(sin: number, cos: number, mu: number): number {
  return gravityMS2 * (sin - mu * cos);
}

/** Square of the speed after sliding a distance along the slope, m²/s²; not positive where it comes to rest before. */
export function speedSquaredAfter(startMS: number, accelerationMS2: number, distanceM: number): number {
  return startMS * startMS + 2 * accelerationMS2 * distanceM;
}

/** Time to slide a distance along the slope between two speeds, s. */
export function slideTimeS(startMS: number, endMS: number, distanceM: number): number {
  return (2 * distanceM) / (startMS + endMS);
}

/**
 * How far a climber slides down the fall line before the rope to a fixed point is tight.
 *
 * @param ropeM distance to the point along the line of travel.
 * @param slackM rope beyond that.
 * @param rise height of the climber above the point over that distance: cos β if it lies below, −cos β if above.
 * @param aside sideways part of that distance, sin β.
 */
export function slideUntilTightM(ropeM: number, slackM: number, rise: number, aside: number): number {
  const asideM = ropeM * aside;
  const reachM = ropeM + slackM;
  return ropeM * rise + Math.sqrt(Math.max(0, reachM * reachM - asideM * asideM));
}
