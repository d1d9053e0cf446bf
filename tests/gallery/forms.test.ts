import { expect, test } from 'vitest';
import type { Entry } from '../../src/core/assumptions/entry';
import AssumptionsPage from '../../src/app/forms/AssumptionsPage.svelte';
import HabitsForm from '../../src/app/forms/HabitsForm.svelte';
import MarkForm from '../../src/app/forms/MarkForm.svelte';
import OverrideForm from '../../src/app/forms/OverrideForm.svelte';
import ScheduleForm from '../../src/app/forms/ScheduleForm.svelte';
import SnowForm from '../../src/app/forms/SnowForm.svelte';
import TeamForm from '../../src/app/forms/TeamForm.svelte';
import ToleranceForm from '../../src/app/forms/ToleranceForm.svelte';
import { madeUpProject } from '../app/fixture/made-up-plan';
import { galleryPage } from './page';

const onChange = () => undefined;

/** A few figures of the kinds there are: a factor, a length, a force. */
const catalogue: readonly Entry[] = [
  {
    key: 'rope.carabinerRatio',
    group: 'Rope',
    label: 'Tension behind a carabiner over tension before it',
    unit: '',
    min: 0.3,
    max: 1,
    default: 0.6,
    source: 'commonly printed 0.52 to 0.66',
  },
  {
    key: 'rope.slackM.mode',
    group: 'Rope',
    label: 'Slack between neighbours: most likely',
    unit: 'm',
    min: 0,
    max: 10,
    default: 1,
    source: 'judgement',
  },
  {
    key: 'snow.P.pieceKN',
    group: 'Pieces',
    label: 'Median strength in pencil snow',
    unit: 'kN',
    min: 0,
    max: 20,
    default: 5,
    source: 'judgement',
  },
];
const project = madeUpProject;
const { walkingRule, ownPace, lastTakesLead, turnsRoundGoingDown, onGlacier } = project;

test('team', async () => {
  const page = galleryPage(TeamForm, { value: project.party, units: 'metric' as const, onChange });
  await expect(page).toMatchFileSnapshot('output/form-team.html');
});

test('team in feet and pounds: what is stored stands beside', async () => {
  const page = galleryPage(TeamForm, { value: project.party, units: 'imperial' as const, onChange });
  await expect(page).toMatchFileSnapshot('output/form-team-imperial.html');
});

test('snow', async () => {
  await expect(galleryPage(SnowForm, { value: project.snow, onChange })).toMatchFileSnapshot(
    'output/form-snow.html',
  );
});

test('day', async () => {
  const value = {
    ...project.schedule,
    snowChanges: [{ fromM: 900, toM: 1500, at: '09:30', snow: { hardness: '4F', wetness: 'W' } as const }],
  };
  const page = galleryPage(ScheduleForm, {
    value,
    units: 'metric' as const,
    lengthM: 1900,
    alternatives: [{ id: 'line-2', name: 'West gully' }],
    onChange,
  });
  // The list of zones is the platform's own and long: it is not part of the picture.
  const picture = page.replace(/<datalist[\s\S]*?<\/datalist>/, '<!-- zones -->');
  await expect(picture).toMatchFileSnapshot('output/form-day.html');
});

test('tolerance, mark, stretch and habits', async () => {
  const mark = project.marks[0];
  if (!mark) throw new Error('the made-up project has a mark');
  const override = {
    id: 'override-1',
    way: 'both' as const,
    fromM: 200,
    toM: 480,
    mode: null,
    snow: { hardness: 'K', wetness: 'D' } as const,
    runOut: null,
    note: 'wind slab scoured',
  };
  const units = 'metric' as const;
  const pages = {
    tolerance: galleryPage(ToleranceForm, { value: project.tolerance, onChange }),
    mark: galleryPage(MarkForm, { value: mark, units, onChange, onDelete: onChange }),
    stretch: galleryPage(OverrideForm, {
      value: override,
      units,
      lengthM: 1900,
      onChange,
      onDelete: onChange,
    }),
    'stretch-back': galleryPage(OverrideForm, {
      value: { ...override, way: 'back' as const },
      units,
      lengthM: 1900,
      wayBack: { lengthM: 1200, otherName: 'by the gully' },
      onChange,
    }),
    habits: galleryPage(HabitsForm, {
      value: { walkingRule, ownPace, lastTakesLead, turnsRoundGoingDown, onGlacier },
      onChange,
    }),
  };
  for (const [name, page] of Object.entries(pages)) {
    await expect(page).toMatchFileSnapshot(`output/form-${name}.html`);
  }
});

test('assumptions, one of them changed', async () => {
  const page = galleryPage(AssumptionsPage, {
    value: { 'rope.carabinerRatio': 0.55 },
    catalogue,
    onChange,
    focusKey: 'rope',
  });
  await expect(page).toMatchFileSnapshot('output/assumptions.html');
});
