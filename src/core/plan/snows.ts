import type { Project } from '../domain/project';
import type { Hardness, Snow } from '../domain/snow';

/**
 * Every snow a plan of this project asks the slip tables about, the main one first: the line's, what is painted, what comes
 * through the day, bare ice where it is marked; and `also` these hardnesses in each wetness (all of them for the matrix and
 * for what hardness would flip a segment).
 */
export function snowsOnLine(project: Project, also: readonly Hardness[] = []): Snow[] {
  const stated: Snow[] = [
    project.snow,
    ...project.overrides.flatMap(({ snow }) => (snow === null ? [] : [snow])),
    ...project.schedule.snowChanges.map(({ snow }) => snow),
  ];
  const hasIce = project.marks.some(({ kind }) => kind === 'ice');
  const further = [...also, ...(hasIce ? (['I'] as const) : [])];
  const snows = new Map<string, Snow>();
  for (const snow of stated) add(snow);
  for (const { wetness } of stated) for (const hardness of further) add({ hardness, wetness });
  return [...snows.values()];

  function add({ hardness, wetness }: Snow): void {
    snows.set(`${hardness} ${wetness}`, { hardness, wetness });
  }
}
