import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { builtApp } from '../browser/built-app';
import { atRest, dropTexts, onPage } from '../browser/gestures';
import { soak } from './long-day';

export default async () => {
  const bytes = readFileSync(join(await builtApp(), 'demo/ombry-terrain.tif'));
  let count = 0;
  return soak({ name: 'raster-switches', usually: 50 }, async (page, times) => {
    await onPage(page, 'Ground');
    for (let i = 0; i < times; i++) await switching(page, `another-${++count}.tif`, bytes);
    return times;
  });
};

/** Another raster over the same ground is opened beside the demo's, planned on and drawn, and taken away. */
async function switching(page: Page, name: string, bytes: Uint8Array): Promise<void> {
  await dropTexts(page, { [name]: bytes });
  const own = page.locator('.ground article').filter({ hasText: name });
  await own.getByText('cells', { exact: true }).waitFor();
  await atRest(page);
  await own.getByRole('button', { name: 'Take away' }).click();
  await own.waitFor({ state: 'detached' });
  await atRest(page);
}
