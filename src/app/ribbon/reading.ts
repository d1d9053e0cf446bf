import { modeName } from '../../core/domain/mode';
import type { Plan, Segment } from '../../core/domain/segment';
import type { Station } from '../../core/domain/station';
import { lengthText, shortLengthText, slopeRangeText } from '../../core/wording/numbers';
import type { Units } from '../../core/wording/units';

/** Index of the station nearest to a distance; -1 without stations. Stations rise along the line. */
export function stationNear(stations: readonly Station[], alongM: number): number {
  let low = 0;
  let high = stations.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((stations[middle]?.alongM ?? 0) < alongM) low = middle + 1;
    else high = middle;
  }
  const before = stations[low - 1];
  const here = stations[low];
  if (!here) return -1;
  return before && alongM - before.alongM < here.alongM - alongM ? low - 1 : low;
}

/** The segment at a distance: on a border the one that begins there. */
export const segmentAt = (segments: readonly Segment[], alongM: number): Segment | undefined =>
  segments.find((s) => alongM >= s.fromM && alongM < s.toM) ?? segments.at(alongM <= 0 ? 0 : -1);

/** What stands at a place on the line, in words; `short` leaves out what the order of the figures tells. */
export function readingAt(plan: Plan, alongM: number, units: Units, short = false): string {
  const i = stationNear(plan.stations, alongM);
  const station = plan.stations[i];
  const decision = plan.decisions[i];
  if (!station || !decision) return lengthText(alongM, units);
  const segment = segmentAt(plan.segments, station.alongM);
  return [
    lengthText(station.alongM, units),
    `${short ? '' : 'elevation '}${shortLengthText(station.elevationM, units)}`,
    `${short ? '' : 'design slope '}${slopeRangeText(station.designSlopeDeg, station.slopeSigmaDeg)}`,
    modeName[segment?.mode ?? decision.mode],
  ].join(' · ');
}
