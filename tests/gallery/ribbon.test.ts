import { expect, test } from 'vitest';
import Ribbon from '../../src/app/ribbon/Ribbon.svelte';
import { themeNames } from '../../src/app/look/themes';
import { madeUpPlan } from '../app/fixture/made-up-plan';
import { galleryPage } from './page';

const plan = madeUpPlan();
const props = {
  plan,
  units: 'metric' as const,
  cursorM: 1100,
  selectedId: 4,
  onCursor: () => undefined,
  onChoose: () => undefined,
  onBrush: () => undefined,
};

test.each(themeNames)('nine stretches, six modes and a hole in the raster, by %s', async (theme) => {
  await expect(galleryPage(Ribbon, props, theme)).toMatchFileSnapshot(`output/ribbon-${theme}.html`);
});
