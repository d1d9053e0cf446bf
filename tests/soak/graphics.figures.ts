import type { Page } from 'playwright-core';
import { colourCount, pixels } from '../browser/pixels';
import { soak } from './long-day';

export default () => soak({ name: 'context-losses', usually: 50 }, losing);

/** Whoever drives the graphics takes them away and gives them back; after each time the map must show a picture again. */
async function losing(page: Page, times: number): Promise<number> {
  let done = 0;
  for (let i = 0; i < times; i++) {
    await page.evaluate(async () => {
      const canvas = document.querySelector<HTMLCanvasElement>('.maplibregl-canvas');
      const taken = canvas?.getContext('webgl2')?.getExtension('WEBGL_lose_context');
      if (!canvas || !taken) throw new Error('No graphics to lose');
      const next = (name: string) =>
        new Promise((resolve) => canvas.addEventListener(name, resolve, { once: true }));
      const lost = next('webglcontextlost');
      taken.loseContext();
      await lost;
      const restored = next('webglcontextrestored');
      setTimeout(() => taken.restoreContext(), 50);
      await restored;
    });
    await page.waitForTimeout(700);
    const shown = async () => colourCount(pixels(await page.locator('.maplibregl-canvas').screenshot()));
    for (let tries = 0; tries < 20; tries++) {
      if ((await shown()) > 500) {
        done++;
        break;
      }
      await page.waitForTimeout(300);
    }
  }
  return done;
}
