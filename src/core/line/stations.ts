import type { LngLat } from '../domain/coordinates';
import type { LineStation } from '../domain/station';
import { turnDeg } from './geodesic';
import { measureLine, type MeasuredLine } from './measured-line';

export { lineLengthM, positionAt, vertexAlongM } from './measured-line';
export { nearestOnLine } from './nearest';

export const maxStations = 100_000;
const stationTurnDeg = 20;
/** Stations closer than this would only divide by nearly nothing. */
const closestM = 0.001;

/** The step used: the one asked for, unless the line is so long that it would need too many stations. Metres. */
export function stationStepM(lengthM: number, stepM: number, extraStations = 0): number {
  if (!(stepM > 0)) throw new RangeError(`a step of ${stepM} m cannot be walked`);
  return Math.max(stepM, lengthM / Math.max(1, maxStations - extraStations - 2));
}

/**
 * Stations along a line: every step from the start, at the end, where the line turns by more than 20 degrees, and at the
 * distances asked for (those outside the line are left out). Never two within a millimetre, never more than 100 000.
 * A line of fewer than two different points has none.
 */
export function makeStations(
  positions: readonly LngLat[],
  { stepM, alsoAtM }: { readonly stepM: number; readonly alsoAtM: readonly number[] },
): LineStation[] {
  const line = measureLine(positions);
  if (!(line.lengthM > closestM)) return [];
  const wanted = alsoAtM.filter((alongM) => alongM >= 0 && alongM <= line.lengthM);
  // The ends and what was asked for stand where they are; turns give way to them, and steps to all.
  const asked = spaced([wanted, turnsAtM(line)]).slice(0, maxStations / 2);
  const fixed = spaced([[0, line.lengthM], asked]);
  const step = stationStepM(line.lengthM, stepM, fixed.length);
  return withSteps(fixed, step).map((alongM) => ({ alongM, ...line.at(alongM) }));
}

/** The distances given, from 0 to the line's end, and every step between them that is not too close to one. */
function withSteps(fixed: readonly number[], step: number): number[] {
  const all: number[] = [];
  let steps = 1;
  for (const alongM of fixed) {
    for (; steps * step <= alongM - closestM; steps++)
      if (steps * step - all.at(-1)! >= closestM) all.push(steps * step);
    all.push(alongM);
  }
  return all;
}

/** Distances at which the line turns sharply. */
function turnsAtM(line: MeasuredLine): number[] {
  const turns: number[] = [];
  let arrivingDeg: number | null = null;
  for (let i = 0; i + 1 < line.positions.length; i++) {
    const edge = line.edge(i);
    if (edge.lengthM === 0) continue;
    if (arrivingDeg !== null && Math.abs(turnDeg(arrivingDeg, edge.leavesDeg)) > stationTurnDeg)
      turns.push(line.vertexAlongM[i]!);
    arrivingDeg = edge.arrivesDeg;
  }
  return turns;
}

/** All lists as one, rising; of two that are too close, the one from the earlier list stays. */
function spaced(lists: readonly (readonly number[])[]): number[] {
  const ranked = lists.flatMap((list, rank) => list.map((alongM) => ({ alongM, rank })));
  ranked.sort((a, b) => a.alongM - b.alongM || a.rank - b.rank);
  const kept: { alongM: number; rank: number }[] = [];
  for (const next of ranked) {
    const last = kept.at(-1);
    if (last === undefined || next.alongM - last.alongM >= closestM) kept.push(next);
    else if (next.rank < last.rank) kept[kept.length - 1] = next;
  }
  return kept.map(({ alongM }) => alongM);
}
