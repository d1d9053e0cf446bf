import { describe, expect, test } from 'vitest';
import { activateLine, joinWith, removeAlternative, setSchedule, type Edit } from '../../src/app/edits';
import type { Line, Override, Project } from '../../src/core/domain/project';
import { defaultProject, readProject, writeProject } from '../../src/core/files/project';

const lineOf = (id: string, northDeg: number): Line => ({
  id,
  name: id,
  points: [0, 0.001].map((eastDeg) => ({
    position: [-30 + eastDeg, northDeg],
    elevationM: null,
    timeMs: null,
  })),
});

const made = defaultProject();
const [there, back, third] = [lineOf('there', 0), lineOf('back', 0.01), lineOf('third', 0.02)];
const project: Project = {
  ...made,
  line: there,
  alternatives: [back, third],
  schedule: { ...made.schedule, wayBack: { alternativeId: back.id } },
};

const wayBackAfter = ({ make }: Edit) => make(project).schedule.wayBack;

describe('the line of the way back', () => {
  test('taken away or joined to the active line, there is no way back', () => {
    expect(wayBackAfter(removeAlternative(back))).toBe('none');
    expect(wayBackAfter(joinWith(back))).toBe('none');
  });

  test('made the active line, the team comes back by the same line', () => {
    expect(wayBackAfter(activateLine('change', back))).toBe('same-line');
  });

  test('left alone it stays, whatever happens to other lines', () => {
    for (const edit of [removeAlternative(third), joinWith(third), activateLine('change', third)])
      expect(wayBackAfter(edit)).toEqual({ alternativeId: back.id });
  });

  test('never names a line that is gone: the project can be opened again', () => {
    for (const edit of [removeAlternative(back), joinWith(back), activateLine('change', back)])
      expect(readProject(writeProject(edit.make(project)), 'again').ok).toBe(true);
  });
});

describe('stretches set for the way back', () => {
  const painted = (way: Override['way']): Override => ({
    ...{ id: way, way, fromM: 0, toM: 50, note: '' },
    ...{ mode: null, snow: null, runOut: 'gentle' },
  });
  const withStretches = { ...project, overrides: [painted('both'), painted('there'), painted('back')] };
  const leftAfter = ({ make }: Edit) => make(withStretches).overrides.map(({ way }) => way);

  test('go with the line that they lie on', () => {
    const { schedule } = project;
    const all = ['both', 'there', 'back'];
    expect(leftAfter(setSchedule({ ...schedule, start: '2026-01-17T04:00' }))).toEqual(all);
    expect(leftAfter(setSchedule({ ...schedule, wayBack: 'same-line' }))).toEqual(['both', 'there']);
    expect(leftAfter(setSchedule({ ...schedule, wayBack: { alternativeId: third.id } }))).toEqual([
      'both',
      'there',
    ]);
    expect(leftAfter(removeAlternative(back))).toEqual(['both', 'there']);
    expect(leftAfter(removeAlternative(third))).toEqual(all);
  });
});
