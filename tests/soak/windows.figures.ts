import type { Page } from 'playwright-core';
import { counted, soak } from './long-day';

export default () => soak({ name: 'raster-windows', usually: 1000 }, panning);

/**
 * The map is drawn over the whole raster in strokes, there and back, time and again: far enough each time that what it has
 * left is let go, and read anew when it comes back.
 */
async function panning(page: Page, times: number): Promise<number> {
  const from = (await counted(page)).windows;
  await page.locator('.maplibregl-canvas').focus();
  let read = 0;
  const press = async (key: string, presses: number) => {
    for (let i = 0; i < presses && read < times; i++) {
      await page.keyboard.press(key);
      await page.waitForTimeout(150);
      read = (await counted(page)).windows - from;
    }
  };
  // Near enough for a window to be some hundred metres wide: the raster is of four kilometres.
  for (let i = 0; i < 3; i++) {
    await page.keyboard.press('+');
    await page.waitForTimeout(1000);
  }
  const strokes = 4;
  const [across, down] = [24, 8];
  for (let sweep = 0; read < times && sweep < times; sweep++) {
    await press('ArrowLeft', across / 2);
    await press('ArrowUp', (strokes * down) / 2);
    for (let stroke = 0; stroke < strokes; stroke++) {
      await press(stroke % 2 === 0 ? 'ArrowRight' : 'ArrowLeft', across);
      await press('ArrowDown', down);
    }
    await press('ArrowUp', (strokes * down) / 2);
    await press('ArrowRight', across / 2);
  }
  return read;
}
