import type { LngLat } from '../../core/domain/coordinates';
import type { Station } from '../../core/domain/station';

/** Index of the last station at or before a distance; 0 before the first. */
export function stationIndexAt(stations: readonly Station[], alongM: number): number {
  let low = 0;
  let high = Math.max(0, stations.length - 1);
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((stations[middle]?.alongM ?? Infinity) <= alongM) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Position between the two stations around a distance; null on a line without stations. For drawing only. */
export function placeAt(stations: readonly Station[], alongM: number): LngLat | null {
  const i = stationIndexAt(stations, alongM);
  const [a, b] = [stations[i], stations[i + 1]];
  if (a === undefined) return null;
  if (b === undefined || alongM <= a.alongM) return a.position;
  const fraction = Math.min(1, (alongM - a.alongM) / (b.alongM - a.alongM));
  const lngDeg = b.position[0] + 360 * Math.round((a.position[0] - b.position[0]) / 360);
  return [
    a.position[0] + (lngDeg - a.position[0]) * fraction,
    a.position[1] + (b.position[1] - a.position[1]) * fraction,
  ];
}

/** Places of a stretch: its two ends and every station between them. */
export function stationsBetween(
  stations: readonly Station[],
  fromM: number,
  toM: number,
): { readonly alongM: number; readonly position: LngLat }[] {
  const inside = stations.slice(stationIndexAt(stations, fromM) + 1, stationIndexAt(stations, toM) + 1);
  const [from, to] = [placeAt(stations, fromM), placeAt(stations, toM)];
  if (from === null || to === null) return [];
  return [
    { alongM: fromM, position: from },
    ...inside.filter(({ alongM }) => alongM > fromM && alongM < toM),
    { alongM: toM, position: to },
  ];
}
