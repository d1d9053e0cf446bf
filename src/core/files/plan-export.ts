import type { Note } from '../domain/problem';
import type { Override, Project } from '../domain/project';
import type { ConditionMatrix, Decision, Plan, Segment } from '../domain/segment';
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

/** A station with what was decided there. */
export interface PlanStation {
  readonly station: Station;
  readonly decision: Decision;
  readonly segment: Segment;
  /** What counts: the guide's class where one is given, else the ground's under the snow there; null: no data. */
  readonly runOut: RunOutClass | null;
}

/** The stations of a plan, whose segments tile its line; a border belongs to the segment that begins there. */
export function planStations(plan: Plan, overrides: readonly Override[]): PlanStation[] {
  const { stations, decisions, segments } = plan;
  let at = 0;
  return stations.map((station, i) => {
    while (at + 1 < segments.length && station.alongM >= segments[at + 1]!.fromM) at += 1;
    const segment = segments[at]!;
    const ground = station.runOut?.[segment.snow.hardness].class ?? null;
    return {
      station,
      decision: decisions[i]!,
      segment,
      runOut: ownRunOut(station.alongM, overrides) ?? ground,
    };
  });
}

function ownRunOut(alongM: number, overrides: readonly Override[]): RunOutClass | null {
  const over = overrides.filter(({ fromM, toM }) => fromM <= alongM && alongM <= toM);
  return over.reduce<RunOutClass | null>((last, { runOut }) => runOut ?? last, null);
}
