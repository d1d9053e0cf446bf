import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { builtApp } from '../browser/built-app';
import { dropFiles, dropTexts, atRest } from '../browser/gestures';
import { launch, type Launched } from '../browser/launch';
import { colourCount, pixels, shareOf } from '../browser/pixels';
import type { Figure } from './figure';
import { writeTerrain } from './made-terrain';

/**
 * How soon the page answers and whether it stays at hand, in Chromium with software graphics. Times are of this machine:
 * they mean something when nothing else runs on it.
 */
export default async function pageFigures(): Promise<readonly Figure[]> {
  const launched = await launch();
  if (!launched)
    return [
      none('first-plan'),
      none('relief'),
      none('longest-task-opening'),
      none('drag-to-paint-p95'),
      none('longest-task-panning'),
    ];
  try {
    const [first, opening, drag, pan] = [
      await firstLook(launched),
      await openingFiles(launched),
      await dragging(launched),
      await panning(launched),
    ];
    return [...first, ...opening, drag, pan, initialScript(await builtApp())];
  } finally {
    await launched.close();
  }
}

const none = (name: string): Figure => ({ name, value: null, unit: 'ms', limit: null, why: 'no Chromium' });

const bluishGreen = [0, 158, 115] as const;

async function open({ browser, origin }: Launched): Promise<{ page: Page; startMs: number }> {
  const context = await browser.newContext({ viewport: { width: 800, height: 500 } });
  await context.addInitScript(() => {
    const seen = ((window as unknown as { tasks: number[] }).tasks = []) as number[];
    new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) seen.push(duration);
    }).observe({ type: 'longtask', buffered: true });
  });
  const page = await context.newPage();
  page.setDefaultTimeout(120_000);
  const startMs = performance.now();
  await page.goto(origin);
  return { page, startMs };
}

/**
 * Line, ribbon and ledger; then the relief. The page marks when the line was drawn and when the map first came to rest; a
 * picture taken then must show both, or nothing was measured.
 */
async function firstLook({ browser, origin }: Launched): Promise<readonly Figure[]> {
  const context = await browser.newContext({ viewport: { width: 800, height: 500 } });
  const page = await context.newPage();
  page.setDefaultTimeout(60_000);
  await page.addInitScript(() => {
    const look = () => {
      if (document.querySelector('.ledger table') && document.querySelector('.ribbon svg'))
        performance.mark('ledger');
      else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
  await page.goto(origin);
  await page.waitForFunction(() => performance.getEntriesByName('relief').length > 0);
  const map = pixels(await page.locator('.maplibregl-canvas').screenshot());
  const isShown = shareOf(map, bluishGreen) > 0.0005 && colourCount(map) > 3000;
  const times = await page.evaluate(
    () =>
      new Promise<Record<string, number>>((resolve) =>
        new PerformanceObserver((list) => {
          const at = (name: string) => performance.getEntriesByName(name)[0]?.startTime ?? NaN;
          const paint = list.getEntries().at(-1)?.startTime ?? NaN;
          resolve({ line: at('line'), ledger: at('ledger'), relief: at('relief'), paint });
        }).observe({ type: 'largest-contentful-paint', buffered: true }),
      ),
  );
  await context.close();
  const whole = (ms: number | undefined) => (isShown ? Math.round(ms ?? NaN) : null);
  const both = Math.max(times['line'] ?? NaN, times['ledger'] ?? NaN);
  return [
    { name: 'line-ribbon-ledger', value: whole(both), unit: 'ms', limit: { atMost: 3000 } },
    { name: 'relief', value: whole(times['relief']), unit: 'ms', limit: { atMost: 6000 } },
    { name: 'largest-contentful-paint', value: whole(times['paint']), unit: 'ms', limit: { atMost: 2500 } },
  ];
}

/** A raster of 10 MB and a track of 20 000 points: the longest time the page did not listen. */
async function openingFiles(launched: Launched): Promise<readonly Figure[]> {
  const folder = mkdtempSync(join(tmpdir(), 'firnward-page-'));
  try {
    const raster = join(folder, 'made.tif');
    writeTerrain({ path: raster, widthPx: 1600, heightPx: 1600, cellM: 5, isDeflated: false, stepM: 0.01 });
    const track = join(folder, 'made.gpx');
    writeFileSync(track, gpx(20_000));
    const { page } = await open(launched);
    await atRest(page);
    const figures: Figure[] = [];
    for (const [name, path] of [
      ['opening-10-mb-raster', raster],
      ['opening-20000-points', track],
    ] as const) {
      await page.evaluate(() => ((window as unknown as { tasks: number[] }).tasks.length = 0));
      await dropFiles(page, [path]);
      // Asked seldom and cheaply: a look through the page by roles would itself be the longest task.
      await page.waitForFunction(
        () => [...document.querySelectorAll('button')].some((each) => each.title.startsWith('Undo open')),
        undefined,
        { polling: 500 },
      );
      await page.waitForTimeout(6000);
      const longest = await page.evaluate(() =>
        Math.max(0, ...(window as unknown as { tasks: number[] }).tasks),
      );
      figures.push({
        name: `longest-task-${name}`,
        value: Math.round(longest),
        unit: 'ms',
        limit: { atMost: 200 },
      });
    }
    await page.context().close();
    return figures;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A winding way over the made terrain (UTM 25 south, its north-west corner at 33 W 45.15 S). */
function gpx(count: number): string {
  const points = Array.from({ length: count }, (_, i) => {
    const t = i / count;
    const lat = -48.455 - 0.055 * t + 0.0008 * Math.sin(90 * t);
    const lon = -21.42 + 0.08 * t + 0.0008 * Math.cos(70 * t);
    return `<trkpt lat="${lat.toFixed(7)}" lon="${lon.toFixed(7)}"><ele>2000</ele></trkpt>`;
  });
  return `<gpx version="1.1" creator="made" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>${points.join('')}</trkseg></trk></gpx>`;
}

/** The map is dragged to and fro: the longest time the page did not listen meanwhile. */
async function panning(launched: Launched): Promise<Figure> {
  const { page } = await open(launched);
  await atRest(page);
  await page.waitForFunction(() => performance.getEntriesByName('relief').length > 0);
  await page.waitForTimeout(5000);
  const box = await page.locator('.maplibregl-canvas').boundingBox();
  if (!box) throw new Error('No map');
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.evaluate(() => ((window as unknown as { tasks: number[] }).tasks.length = 0));
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 0; i < 90; i++) {
    await page.mouse.move(x + 60 * Math.sin(i / 12), y + 40 * Math.cos(i / 12));
    await page.waitForTimeout(16);
  }
  await page.mouse.up();
  await page.waitForTimeout(500);
  const longest = await page.evaluate(() => Math.max(0, ...(window as unknown as { tasks: number[] }).tasks));
  await page.context().close();
  return { name: 'longest-task-panning', value: Math.round(longest), unit: 'ms', limit: { atMost: 50 } };
}

/** A winding way over the demo's raster: 10 km, a point every 100 m. */
const tenKilometres = (): string => {
  const points = Array.from({ length: 101 }, (_, i) => {
    const t = i / 100;
    const lat = -48.498 + 0.02 * t + 0.0012 * Math.sin(40 * t);
    const lon = -21.388 + 0.016 * t + 0.009 * Math.sin(22 * t);
    return `<trkpt lat="${lat.toFixed(7)}" lon="${lon.toFixed(7)}"/>`;
  });
  return `<gpx version="1.1" creator="made" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>${points.join('')}</trkseg></trk></gpx>`;
};

/** The end of a line of 10 km is dragged to and fro: from each move of the pointer to the next frame on the screen. */
async function dragging(launched: Launched): Promise<Figure> {
  const { page } = await open(launched);
  await atRest(page);
  await dropTexts(page, { 'ten.gpx': tenKilometres() });
  await page.getByRole('button', { name: /^Undo open/ }).waitFor();
  await atRest(page);
  const plot = page.getByRole('slider', { name: 'Place along the line' });
  const lengthM = Number(await plot.getAttribute('aria-valuemax'));
  if (lengthM < 9500) throw new Error(`The line is ${lengthM} m long, not 10 km`);
  await page.getByRole('button', { name: 'Edit points' }).click();
  await page.getByText('Drag a point').first().waitFor();
  const ribbon = await page.locator('.ribbon svg').first().boundingBox();
  if (!ribbon) throw new Error('No ribbon');
  await page.mouse.move(ribbon.x + ribbon.width - 41, ribbon.y + 60);
  const cursor = await page.locator('.map .cursor').boundingBox();
  if (!cursor) throw new Error('No cursor on the map');
  const [x, y] = [cursor.x + cursor.width / 2, cursor.y + cursor.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.evaluate(() => {
    const lags = ((window as unknown as { lags: number[] }).lags = []) as number[];
    window.addEventListener(
      'pointermove',
      ({ timeStamp }) => {
        const { port1, port2 } = new MessageChannel();
        // After the frame: a message posted in it comes when it is painted.
        port1.onmessage = () => lags.push(performance.now() - timeStamp);
        requestAnimationFrame(() => port2.postMessage(null));
      },
      true,
    );
  });
  for (let i = 0; i < 60; i++) {
    await page.mouse.move(x + 15 * Math.sin(i / 6), y + 10 * Math.cos(i / 6));
    await page.waitForTimeout(16);
  }
  await page.mouse.up();
  const lags = await page.evaluate(() => (window as unknown as { lags: number[] }).lags);
  lags.sort((a, b) => a - b);
  const p95 = lags[Math.floor(0.95 * lags.length)] ?? NaN;
  await page.context().close();
  return { name: 'drag-to-paint-p95', value: Math.round(p95), unit: 'ms', limit: { atMost: 100 } };
}

/** Compressed script that the first screen needs: the page's own, and the map. */
function initialScript(folder: string): Figure {
  const html = readFileSync(join(folder, 'index.html'), 'utf8');
  const entry = /src="([^"]+[.]js)"/.exec(html)?.[1] ?? '';
  const seen = new Set<string>();
  const follow = (path: string): void => {
    if (seen.has(path)) return;
    seen.add(path);
    const text = readFileSync(join(folder, path), 'utf8');
    for (const [, name] of text.matchAll(/from\s*["']\.\/([^"']+[.]js)["']/g)) follow(`assets/${name}`);
    for (const [, name] of text.matchAll(/(MapView-[\w-]+[.]js)/g)) follow(`assets/${name}`);
  };
  follow(entry.replace(/^[.]\//, ''));
  const bytes = [...seen].reduce(
    (sum, path) => sum + gzipSync(readFileSync(join(folder, path)), { level: 9 }).length,
    0,
  );
  return {
    name: 'initial-script',
    value: Math.round(bytes / 1024),
    unit: 'KiB-gzip',
    limit: { atMost: 600 },
  };
}
