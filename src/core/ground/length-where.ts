import type { Station } from '../domain/station';

/** Length of line, metres, that stations stand for of which something is true: half the way to each neighbour. */
export function lengthWhere(stations: readonly Station[], is: (station: number) => boolean): number {
  let sumM = 0;
  for (let i = 1; i < stations.length; i++) {
    const halfM = (stations[i]!.alongM - stations[i - 1]!.alongM) / 2;
    sumM += (is(i - 1) ? halfM : 0) + (is(i) ? halfM : 0);
  }
  return sumM;
}
