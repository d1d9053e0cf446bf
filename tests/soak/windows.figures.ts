import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { writeTerrain } from '../bench/made-terrain';
import { openRaster } from '../bench/open-raster';
import { counted, soak } from './long-day';

export default async () => {
  const folder = mkdtempSync(join(tmpdir(), 'firnward-windows-'));
  const raster = join(folder, 'large.tif');
  writeTerrain({ path: raster, widthPx: 8192, heightPx: 8192, cellM: 10, isDeflated: true, stepM: 0.5 });
  let isOpen = false;
  // Map and reader keep what they have drawn and read up to their bounds.
  try {
    return await soak({ name: 'raster-windows', usually: 1000, fullAfter: 300 }, async (page, times) => {
      if (!isOpen) await openNear(page, raster);
      isOpen = true;
      return panning(page, times);
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

/** Near enough that a press of an arrow goes less than a kilometre. */
async function openNear(page: Page, raster: string): Promise<void> {
  await openRaster(page, raster);
  await page.locator('.maplibregl-canvas').focus();
  for (let closer = 0; closer < 6; closer++) {
    await page.keyboard.press('+');
    await page.waitForTimeout(1000);
  }
}

/** The map is drawn to and fro over a raster of eighty kilometres, so that ever other windows of it are read. */
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
  const [strokes, across, down] = [6, 40, 6];
  for (let sweep = 0; read < times && sweep < times; sweep++) {
    for (let stroke = 0; stroke < strokes; stroke++) {
      await press(stroke % 2 === 0 ? 'ArrowRight' : 'ArrowLeft', across);
      await press(sweep % 2 === 0 ? 'ArrowDown' : 'ArrowUp', down);
    }
  }
  return read;
}
