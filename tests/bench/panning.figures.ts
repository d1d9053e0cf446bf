import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { mapBox, atRest } from '../browser/gestures';
import { launch, type Launched } from '../browser/launch';
import type { Figure } from './figure';
import { writeTerrain } from './made-terrain';
import { openRaster } from './open-raster';

/**
 * The map dragged over a raster of 10 240 x 10 240 cells, in Chromium with software graphics: how long the frames are and how
 * long the page does not listen. Beside them what a frame takes over the demo alone, which the graphics cost on this machine.
 */
export default async function panningFigures(): Promise<readonly Figure[]> {
  const launched = await launch();
  if (!launched) return [{ name: 'panning', value: null, unit: 'ms', limit: null, why: 'no Chromium' }];
  const folder = mkdtempSync(join(tmpdir(), 'firnward-panning-'));
  try {
    const raster = join(folder, 'large.tif');
    writeTerrain({
      path: raster,
      widthPx: 10_240,
      heightPx: 10_240,
      cellM: 10,
      isDeflated: true,
      stepM: 0.5,
    });
    const before = await panned(launched, null);
    const over = await panned(launched, raster);
    return [...figuresOf('demo', before, null), ...figuresOf('10240-raster', over, 50)];
  } finally {
    await launched.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

interface Frames {
  /** Rising. */
  readonly framesMs: readonly number[];
  readonly longestTaskMs: number;
}

function figuresOf(name: string, { framesMs, longestTaskMs }: Frames, longestMs: number | null): Figure[] {
  const at = (share: number) => Math.round(framesMs[Math.floor(share * framesMs.length)] ?? NaN);
  return [
    { name: `panning-frame-median-${name}`, value: at(0.5), unit: 'ms', limit: null },
    { name: `panning-frame-p95-${name}`, value: at(0.95), unit: 'ms', limit: null },
    {
      name: `panning-longest-task-${name}`,
      value: Math.round(longestTaskMs),
      unit: 'ms',
      limit: longestMs === null ? null : { atMost: longestMs },
    },
  ];
}

interface Watched {
  tasks: number[];
  frames: number[];
}

async function panned({ browser, origin }: Launched, raster: string | null): Promise<Frames> {
  const context = await browser.newContext({ viewport: { width: 800, height: 500 } });
  const page = await context.newPage();
  page.setDefaultTimeout(180_000);
  await page.addInitScript(watch);
  await page.goto(origin);
  await atRest(page);
  await page.waitForFunction(() => performance.getEntriesByName('relief').length > 0);
  if (raster !== null) await openRaster(page, raster);
  await page.waitForTimeout(5000);
  await drag(page);
  const { tasks, frames } = await page.evaluate(() => {
    const watched = window as unknown as Watched;
    return { tasks: watched.tasks, frames: watched.frames };
  });
  if (process.env['BENCH_SHOT'])
    await page.screenshot({
      path: `${process.env['BENCH_SHOT']}-${raster === null ? 'demo' : 'raster'}.png`,
    });
  await context.close();
  const framesMs = frames.slice(1).map((at, i) => at - frames[i]!);
  return { framesMs: framesMs.sort((a, b) => a - b), longestTaskMs: Math.max(0, ...tasks) };
}

function watch(): void {
  const watched = window as unknown as Watched;
  watched.tasks = [];
  watched.frames = [];
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) watched.tasks.push(duration);
  }).observe({ type: 'longtask', buffered: true });
  const frame = (at: number) => {
    watched.frames.push(at);
    requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
}

/** Further each time round, so that new tiles come into view. */
async function drag(page: Page): Promise<void> {
  const box = await mapBox(page);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.evaluate(() => {
    const watched = window as unknown as Watched;
    watched.tasks.length = 0;
    watched.frames.length = 0;
  });
  for (let stroke = 0; stroke < 3; stroke++) {
    await page.mouse.move(x + 150, y + 60);
    await page.mouse.down();
    for (let i = 0; i < 40; i++) {
      await page.mouse.move(x + 150 - 7 * i, y + 60 - 3 * i);
      await page.waitForTimeout(16);
    }
    await page.mouse.up();
  }
}
