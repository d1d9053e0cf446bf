import type { Project } from '../domain/project';
import type { Finding } from './schema-problems';

interface Identified {
  readonly id: string;
}

/** Gives an id to everything that came without one; the same file gets the same ids. */
export function withIds(project: Project): Project {
  const taken = new Set(allOf(project).map(({ id }) => id));
  const filled = <T extends Identified>(items: readonly T[], letters: string): T[] =>
    items.map((item, i) => (item.id === '' ? { ...item, id: free(`${letters}${i + 1}`) } : item));
  const free = (wish: string): string => {
    let id = wish;
    for (let n = 2; taken.has(id); n++) id = `${wish}-${n}`;
    taken.add(id);
    return id;
  };
  return {
    ...project,
    line: filled([project.line], 'line-').map((line) => line)[0] ?? project.line,
    alternatives: filled(project.alternatives, 'alternative-'),
    marks: filled(project.marks, 'mark-'),
    overrides: filled(project.overrides, 'override-'),
  };
}

/** Ids that stand twice, and references to what is not there. */
export function idFindings(project: Project): Finding[] {
  const findings: Finding[] = [];
  const twice = (items: readonly Identified[], at: (i: number) => string) => {
    const seen = new Set<string>();
    items.forEach(({ id }, i) => {
      if (seen.has(id)) findings.push({ pointer: `${at(i)}/id`, title: `the id "${id}" stands twice` });
      seen.add(id);
    });
  };
  twice([project.line, ...project.alternatives], (i) => (i === 0 ? '/line' : `/alternatives/${i - 1}`));
  twice(project.marks, (i) => `/marks/${i}`);
  twice(project.overrides, (i) => `/overrides/${i}`);
  const { wayBack } = project.schedule;
  if (typeof wayBack === 'object' && !project.alternatives.some(({ id }) => id === wayBack.alternativeId))
    findings.push({
      pointer: '/schedule/wayBack/alternativeId',
      title: `there is no alternative "${wayBack.alternativeId}"`,
    });
  return findings;
}

function allOf(project: Project): Identified[] {
  return [project.line, ...project.alternatives, ...project.marks, ...project.overrides];
}
