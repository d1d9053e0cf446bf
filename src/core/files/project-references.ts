import type { Project } from '../domain/project';
import { limits } from './limits';
import type { Finding } from './schema-problems';

interface Identified {
  readonly id: string;
}

/** Gives an id to everything that came without one; the same file gets the same ids. */
export function withIds(project: Project): Project {
  const taken = new Set(allOf(project).map(({ id }) => id));
  const filled = <T extends Identified>(item: T, wish: string): T =>
    item.id === '' ? { ...item, id: free(wish) } : item;
  const free = (wish: string): string => {
    let id = wish;
    for (let n = 2; taken.has(id); n++) id = `${wish}-${n}`;
    taken.add(id);
    return id;
  };
  return {
    ...project,
    line: filled(project.line, 'line-1'),
    alternatives: project.alternatives.map((item, i) => filled(item, `alternative-${i + 1}`)),
    marks: project.marks.map((item, i) => filled(item, `mark-${i + 1}`)),
    overrides: project.overrides.map((item, i) => filled(item, `override-${i + 1}`)),
  };
}

/** Ids that stand twice, references to what is not there, and lines of too many points. */
export function projectFindings(project: Project): Finding[] {
  const findings: Finding[] = [];
  const twice = (items: readonly Identified[], at: (i: number) => string) => {
    const seen = new Set<string>();
    items.forEach(({ id }, i) => {
      if (seen.has(id)) findings.push({ pointer: `${at(i)}/id`, title: `the id "${id}" stands twice` });
      seen.add(id);
    });
  };
  twice([project.line, ...project.alternatives], (i) => `/alternatives/${i - 1}`);
  twice(project.marks, (i) => `/marks/${i}`);
  twice(project.overrides, (i) => `/overrides/${i}`);
  const { wayBack } = project.schedule;
  if (typeof wayBack === 'object' && !project.alternatives.some(({ id }) => id === wayBack.alternativeId))
    findings.push({
      pointer: '/schedule/wayBack/alternativeId',
      title: `there is no alternative "${wayBack.alternativeId}"`,
    });
  const points = [project.line, ...project.alternatives].reduce((sum, line) => sum + line.points.length, 0);
  if (points > limits.points)
    findings.push({ pointer: '/line', title: `the lines hold ${points} points, more than ${limits.points}` });
  return findings;
}

function allOf(project: Project): Identified[] {
  return [project.line, ...project.alternatives, ...project.marks, ...project.overrides];
}
