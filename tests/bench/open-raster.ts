import type { Page } from 'playwright-core';
import { atRest } from '../browser/gestures';

/** Opens a raster as its user would, and waits until the plan stands on it. */
export async function openRaster(page: Page, path: string): Promise<void> {
  await page.locator('input[type=file]').first().setInputFiles(path);
  await page.waitForFunction(
    () => [...document.querySelectorAll('button')].some((each) => each.title.startsWith('Undo open')),
    undefined,
    { polling: 500 },
  );
  await atRest(page);
}
