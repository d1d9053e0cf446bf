import type { Station } from '../domain/station';

/** A team turns round for a descent of this much and not for a dip in the ground (judgement). */
export const turnRoundDropM = 10;

interface Extreme {
  readonly index: number;
  readonly elevationM: number;
}

/**
 * Which stations the team passes going down: from a high point to the next low point, where the line falls by at least
 * `dropM` before it rises as much again. Lesser dips and rises belong to what they interrupt. One for each station.
 */
export function goingDown(stations: readonly Station[], dropM: number = turnRoundDropM): Uint8Array {
  const down = new Uint8Array(stations.length);
  let heading: 'up' | 'down' | null = null;
  let high: Extreme | null = null;
  let low: Extreme | null = null;

  stations.forEach(({ elevationM }, index) => {
    if (elevationM === null) return;
    const here = { index, elevationM };
    if (high === null || elevationM > high.elevationM) high = here;
    if (low === null || elevationM < low.elevationM) low = here;

    if (heading !== 'down' && high.elevationM - elevationM >= dropM) {
      heading = 'down';
      down.fill(1, high.index);
      low = here;
    } else if (heading !== 'up' && elevationM - low.elevationM >= dropM) {
      heading = 'up';
      down.fill(0, low.index);
      high = here;
    }
  });
  return down;
}
