import { expect, test } from 'vitest';
import { drawnPoint } from '../../src/app/edits';
import { steps } from '../../src/app/side-pages';
import { stepState, type Prepared } from '../../src/app/step-states';
import { defaultProject } from '../../src/core/files/project';
import { madeUpPlan, madeUpProject } from './fixture/made-up-plan';

const empty: Prepared = { project: defaultProject(), plan: null, opened: {}, units: 'metric' };
const words = (prepared: Prepared) =>
  Object.fromEntries(steps.map(({ id }) => [id, stepState[id](prepared).text]));

test('what is missing for a plan says so, and nothing else does', () => {
  const missing = steps.filter(({ id }) => stepState[id](empty).isMissing).map(({ id }) => id);
  expect(missing).toEqual(['line', 'ground']);
});

test('a project with a plan is read off its steps', () => {
  const project = {
    ...madeUpProject,
    line: { id: 'a', name: 'A', points: [drawnPoint([7, 46]), drawnPoint([7.01, 46.01])] },
    snow: { hardness: 'P', wetness: 'D' } as const,
    schedule: { ...madeUpProject.schedule, start: '2031-05-14T04:30', backBy: '2031-05-14T15:00' },
    assumptions: { 'walking.munterUp': 4.2 },
    marks: [],
  };
  const said = words({ ...empty, project, plan: madeUpPlan() });
  expect(said).toMatchObject({
    marks: 'none',
    snow: expect.stringMatching(/^pencil, dry/) as string,
    day: 'start 04:30, back by 15:00',
    assumptions: '1 changed',
  });
  expect(said['line']).toMatch(/^1\.90\u202fkm .*rise unknown$/);
});

test('a raster that is named and not open is missed by its name', () => {
  const project = {
    ...madeUpProject,
    terrain: [
      {
        fileName: 'ridge.tif',
        checksum: null,
        crs: null,
        elevationUnit: null,
        surveyed: null,
        sigmaZM: null,
      },
    ],
  };
  expect(stepState.ground({ ...empty, project })).toEqual({ text: 'ridge.tif is not open', isMissing: true });
});
