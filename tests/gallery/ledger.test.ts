import { expect, test } from 'vitest';
import Ledger from '../../src/app/ledger/Ledger.svelte';
import { madeUpPlan, madeUpProject } from '../app/fixture/made-up-plan';
import { galleryPage } from './page';

const plan = madeUpPlan();
const props = {
  plan,
  project: madeUpProject,
  units: 'metric' as const,
  cursorM: 700,
  selectedId: 4,
  onSelect: () => undefined,
  onGoTo: () => undefined,
  onAssumptions: () => undefined,
};

test('totals, warnings and nine rows, one of them without ground and one that nothing holds', async () => {
  await expect(galleryPage(Ledger, props)).toMatchFileSnapshot('output/ledger.html');
});

test('beside a kept plan, in feet and pounds, by night', async () => {
  const reference = {
    ...plan,
    totals: {
      ...plan.totals,
      pieces: 20,
      time: { ...plan.totals.time, defaultS: plan.totals.time.defaultS - 900 },
    },
  };
  const page = galleryPage(Ledger, { ...props, units: 'imperial' as const, reference }, 'night');
  await expect(page).toMatchFileSnapshot('output/ledger-compared-night.html');
});
