import type { Note } from '../domain/problem';
import type { Override, Project } from '../domain/project';
import type { ConditionMatrix, Plan, Segment } from '../domain/segment';
import type { RunOutClass, Station, TerrainSummary } from '../domain/station';

/** What is written of a plan, in any format. */
export interface PlanExport {
  readonly project: Project;
  readonly plan: Plan;
  readonly terrain: readonly TerrainSummary[];
  /** What was decided for the user while reading, and what they should know of the files. */
  readonly notes: readonly Note[];
  /** null: not computed. */
  readonly matrix: ConditionMatrix | null;
}

/** Segment of each station, in step with the stations; a border belongs to the segment that begins there. */
export function segmentOfStations(plan: Plan): (Segment | null)[] {
  let at = 0;
  return plan.stations.map(({ alongM }) => {
    while (at + 1 < plan.segments.length && alongM >= (plan.segments[at + 1]?.fromM ?? Infinity)) at += 1;
    return plan.segments[at] ?? null;
  });
}

/** Run-out class that counts at a station: the guide's where one is given, else the ground's under the snow there. */
export function runOutAt(
  station: Station,
  segment: Segment | null,
  overrides: readonly Override[],
): RunOutClass | null {
  const own = overrides.findLast(
    ({ fromM, toM, runOut }) => runOut !== null && fromM <= station.alongM && station.alongM <= toM,
  );
  if (own?.runOut !== undefined && own.runOut !== null) return own.runOut;
  return segment === null ? null : (station.runOut?.[segment.snow.hardness].class ?? null);
}
