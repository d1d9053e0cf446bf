import type { CDPSession, Page } from 'playwright-core';
import type { Figure } from '../bench/figure';
import { settled } from '../browser/gestures';
import { launch, type Launched } from '../browser/launch';
import { colourCount, pixels } from '../browser/pixels';

/**
 * A long day in one page, hurried: does it grow, does it leave anything behind, does anything go wrong unseen? Counts are
 * multiplied by SOAK_SHARE (default 1: about half an hour).
 */
const share = Number(process.env['SOAK_SHARE'] ?? 1);
const counts = {
  pairs: Math.ceil(30_000 * share),
  windows: Math.ceil(1000 * share),
  visits: Math.ceil(200 * share),
  losses: Math.ceil(50 * share),
};
/** A part of each run goes before the first look at the heap: caches fill, code is compiled. */
const warmUp = 0.1;
const mostGrowthPct = 5;

export default async function soakFigures(): Promise<readonly Figure[]> {
  const launched = await launch();
  if (!launched) return [{ name: 'soak', value: null, unit: '-', limit: null, why: 'no Chromium' }];
  try {
    return [
      ...(await soak(launched, 'edit-undo-pairs', counts.pairs, editing)),
      ...(await soak(launched, 'raster-windows', counts.windows, panning)),
      ...(await soak(launched, 'context-losses', counts.losses, losing)),
      ...(await soak(launched, 'page-visits', counts.visits, visiting)),
    ];
  } finally {
    await launched.close();
  }
}

/** @returns how often it was really done. */
type Work = (page: Page, times: number) => Promise<number>;

async function soak(
  { browser, origin }: Launched,
  name: string,
  times: number,
  work: Work,
): Promise<Figure[]> {
  const context = await browser.newContext({ viewport: { width: 640, height: 400 } });
  await context.addInitScript(countThings);
  const page = await context.newPage();
  page.setDefaultTimeout(120_000);
  const wrong: string[] = [];
  page.on('pageerror', ({ message }) => wrong.push(message));
  page.on('console', (message) => {
    if (message.type() === 'error') wrong.push(message.text());
  });
  await page.goto(origin);
  await page.locator('.ledger table').first().waitFor();
  await settled(page);
  const heap = await context.newCDPSession(page);
  const startMs = performance.now();
  const first = Math.ceil(warmUp * times);
  const warmed = await work(page, first);
  const before = await heapMb(page, heap);
  const left = await leftBehind(page);
  const done = warmed + (await work(page, times - first));
  const after = await heapMb(page, heap);
  const grown = (await leftBehind(page)).map((now, i) => now - (left[i] ?? 0));
  const minutes = (performance.now() - startMs) / 60_000;
  for (const text of wrong.slice(0, 5)) console.error(`${name}: ${text}`);
  await context.close();
  const none = { atMost: 0 };
  return [
    { name, value: done, unit: 'times', limit: { atLeast: times } },
    { name: `${name}: time`, value: minutes, unit: 'min', limit: null },
    { name: `${name}: heap at first`, value: before, unit: 'MB', limit: null },
    {
      name: `${name}: heap growth`,
      value: Math.max(0, (100 * (after - before)) / before),
      unit: '%',
      limit: { atMost: mostGrowthPct },
    },
    { name: `${name}: uncaught errors`, value: wrong.length, unit: 'errors', limit: none },
    { name: `${name}: maps left`, value: grown[0] ?? NaN, unit: 'maps', limit: none },
    { name: `${name}: workers left`, value: grown[1] ?? NaN, unit: 'workers', limit: none },
    { name: `${name}: object addresses left`, value: grown[2] ?? NaN, unit: 'addresses', limit: none },
  ];
}

interface Counted {
  /** Questions for a window of the rasters that were answered by the worker. */
  windows: number;
  addresses: number;
}

/** Runs in the page before its own scripts. */
function countThings(): void {
  const counted: Counted = { windows: 0, addresses: 0 };
  (window as unknown as { counted: Counted }).counted = counted;
  const post = Object.getOwnPropertyDescriptor(Worker.prototype, 'postMessage')?.value as (
    this: Worker,
    ...all: unknown[]
  ) => void;
  Worker.prototype.postMessage = function (this: Worker, ...all: unknown[]) {
    const call = (all[0] as { call?: unknown } | null)?.call;
    if (call === 'tile' || call === 'contours' || call === 'readGround') counted.windows++;
    post.apply(this, all);
  };
  const make = URL.createObjectURL.bind(URL);
  const revoke = URL.revokeObjectURL.bind(URL);
  URL.createObjectURL = (of) => (counted.addresses++, make(of));
  URL.revokeObjectURL = (url) => (counted.addresses--, revoke(url));
}

const counted = (page: Page): Promise<Counted> =>
  page.evaluate(() => ({ ...(window as unknown as { counted: Counted }).counted }));

async function leftBehind(page: Page): Promise<[maps: number, workers: number, addresses: number]> {
  const maps = await page.locator('.maplibregl-canvas').count();
  return [maps, page.workers().length, (await counted(page)).addresses];
}

/** What the page holds after everything else was let go. */
async function heapMb(page: Page, session: CDPSession): Promise<number> {
  await settled(page);
  await page
    .getByRole('status')
    .filter({ hasText: /^Saved/ })
    .waitFor();
  await page.waitForTimeout(1500);
  let least = Infinity;
  for (let i = 0; i < 3; i++) {
    await session.send('HeapProfiler.collectGarbage');
    const { usedSize } = await session.send('Runtime.getHeapUsage');
    least = Math.min(least, usedSize / 2 ** 20);
  }
  return least;
}

/** A point is nudged by keys and put back, over and over; the plan follows as it can. */
async function editing(page: Page, times: number): Promise<number> {
  const edit = page.getByRole('button', { name: 'Edit points' });
  if ((await edit.getAttribute('aria-pressed')) !== 'true') await edit.click();
  await page.getByText('Drag a point').first().waitFor();
  await page.locator('.maplibregl-canvas').focus();
  await page.keyboard.press(']');
  const undo = page.getByRole('button', { name: /^Undo move point/ });
  await page.keyboard.press('ArrowLeft');
  await undo.waitFor();
  await page.keyboard.press('Control+z');
  await undo.waitFor({ state: 'hidden' });
  return page.evaluate(async (pairs) => {
    const canvas = document.querySelector('.maplibregl-canvas');
    const [undoButton] = document.querySelectorAll<HTMLButtonElement>('button[aria-label^="Undo"]');
    if (!canvas || !undoButton) throw new Error('The page is not as expected');
    const key = (of: EventTarget, init: KeyboardEventInit) =>
      of.dispatchEvent(new KeyboardEvent('keydown', { bubbles: true, cancelable: true, ...init }));
    const turn = () => new Promise((resolve) => setTimeout(resolve, 0));
    let done = 0;
    for (let i = 0; i < pairs; i++) {
      key(canvas, { key: i % 2 ? 'ArrowLeft' : 'ArrowUp' });
      await turn();
      const isEdited = !undoButton.disabled;
      key(window, { key: 'z', ctrlKey: true });
      await turn();
      if (isEdited && undoButton.disabled) done++;
    }
    return done;
  }, times);
}

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

/** The page is left and come back to; the work of the last visit is there each time. */
async function visiting(page: Page, times: number): Promise<number> {
  let done = 0;
  for (let i = 0; i < times; i++) {
    await page.reload();
    await page.locator('.ledger table tbody tr').first().waitFor();
    await settled(page);
    done++;
  }
  return done;
}
