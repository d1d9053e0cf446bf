import { gravityMS2 } from './rope-forces';

/** Acceleration down a slope, m/s²; negative where friction wins. */
export function slideAcceleration(slopeRad: number, mu: number): number {
  return gravityMS2 * (Math.sin(slopeRad) - mu * Math.cos(slopeRad));
}

/** Speed after sliding a distance along the slope, m/s; 0 if it comes to rest before. */
export function slideSpeedMS(startMS: number, accelerationMS2: number, distanceM: number): number {
  return Math.sqrt(Math.max(0, startMS * startMS + 2 * accelerationMS2 * distanceM));
}

/** Time to slide a distance along the slope from rest, s. */
export function slideTimeS(accelerationMS2: number, distanceM: number): number {
  return Math.sqrt((2 * distanceM) / accelerationMS2);
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
