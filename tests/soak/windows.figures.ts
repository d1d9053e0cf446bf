import type { Page } from 'playwright-core';
import { counted, soak } from './long-day';

export default () => soak({ name: 'raster-windows', usually: 1000 }, panning);

/** The map is pushed about and zoomed, so that ever other windows of the raster are read. */
async function panning(page: Page, times: number): Promise<number> {
  const from = (await counted(page)).windows;
  await page.locator('.maplibregl-canvas').focus();
  const keys = ['ArrowLeft', 'ArrowUp', '+', 'ArrowRight', 'ArrowRight', 'ArrowDown', '-', 'ArrowLeft'];
  let read = 0;
  for (let i = 0; read < times && i < 50 * times; i++) {
    await page.keyboard.press(keys[i % keys.length] ?? '+');
    await page.waitForTimeout(150);
    read = (await counted(page)).windows - from;
  }
  return read;
}
