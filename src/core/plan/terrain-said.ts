import type { Project } from '../domain/project';
import type { TerrainSummary } from '../domain/station';

/** The terrain with what the user says of it, where the file itself is silent or wrong: its date of survey. */
export function terrainSaid(
  terrain: readonly TerrainSummary[],
  project: Pick<Project, 'terrain'>,
): TerrainSummary[] {
  return terrain.map((summary) => {
    const said = project.terrain.find(({ fileName }) => fileName === summary.name)?.surveyed;
    return said ? { ...summary, surveyed: said } : summary;
  });
}
