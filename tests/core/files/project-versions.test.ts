import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readProject, writeProject } from '../../../src/core/files/project';
import { brought, migrations, type Migration } from '../../../src/core/files/project-migrations';
import { projectFindings } from '../../../src/core/files/project-references';
import { projectVersion } from '../../../src/core/files/project-schema';
import { attempt, Refuser } from '../../../src/core/files/refusal';

const folder = join(import.meta.dirname, 'projects');
const refuser = new Refuser('old', 'PRJ');

test('there is a sample of every version, and a step from each to the next', () => {
  const versions = readdirSync(folder).map((name) =>
    Number(/^version-(\d+)\.firnward\.json$/.exec(name)?.[1]),
  );
  expect(versions.sort((a, b) => a - b)).toEqual(Array.from({ length: projectVersion }, (_, i) => i + 1));
  expect(migrations).toHaveLength(projectVersion - 1);
});

test.each(readdirSync(folder))('%s opens, and nothing in it is lost', (name) => {
  const text = readFileSync(join(folder, name), 'utf8');
  const result = readProject(text, name);
  if (!result.ok) throw new Error(`${result.problem.place}: ${result.problem.title}`);
  const { project } = result.value;
  expect(project.line.points).toHaveLength(3);
  expect(project.marks.map(({ kind }) => kind)).toEqual(['crevasse-crossing', 'cornice']);
  expect(project.party.climbers.map((each) => each.name)).toEqual(['A', 'B', 'C']);
  expect(project).toHaveProperty('ofAnotherMaker', { kept: true });
  if (name.includes(`-${projectVersion}.`)) expect(writeProject(project)).toBe(text);
});

test('older files are brought up step by step, and it is said; newer ones are refused', () => {
  const steps: Migration[] = [
    (file) => ({ ...file, title: file['name'] ?? '' }),
    (file) => ({ ...file, title: [file['title'] ?? '', '!'] }),
  ];
  const from = (version: number) => attempt(() => brought({ version, name: 'n' }, refuser, steps));
  expect(from(1)).toMatchObject({
    ok: true,
    value: { file: { version: 3, title: ['n', '!'] }, notes: [{ code: 'PRJ-004' }] },
  });
  expect(from(2)).toMatchObject({ ok: true, value: { file: { version: 3 } } });
  expect(from(3)).toEqual({ ok: true, value: { file: { version: 3, name: 'n' }, notes: [] } });
  expect(from(4)).toMatchObject({ ok: false, problem: { code: 'PRJ-003' } });
});

test('ids are given where none are, never one that stands; twice in the alternatives is found', () => {
  const text = JSON.stringify({
    format: 'firnward-project',
    version: 1,
    marks: [
      { id: 'mark-2', kind: 'ice', positions: [[0, 0]] },
      { kind: 'ice', positions: [[0, 0]] },
    ],
    alternatives: [{ id: 'a' }, { id: 'a' }],
  });
  const result = readProject(text, 'f');
  expect(result).toMatchObject({ ok: false, problem: { code: 'PRJ-011', place: '/alternatives/1/id' } });
  const once = readProject(text.replace('{"id":"a"},{"id":"a"}', '{"id":"a"}'), 'f');
  expect(once.ok && once.value.project.marks.map(({ id }) => id)).toEqual(['mark-2', 'mark-2-2']);
});

test('more than two million points are too many', () => {
  const result = readProject('{"format":"firnward-project","version":1}', 'f');
  if (!result.ok) throw new Error('the defaults are refused');
  const line = { ...result.value.project.line, points: { length: 2_000_001 } as never };
  expect(projectFindings({ ...result.value.project, line })).toMatchObject([{ pointer: '/line' }]);
});
