import type { CDPSession, Page } from 'playwright-core';
import type { Figure } from '../bench/figure';
import { atRest } from '../browser/gestures';
import { launch, type Launched } from '../browser/launch';

/**
 * A long day in one page, hurried: does it grow, does it leave anything behind, does anything go wrong unseen? Counts are
 * multiplied by SOAK_SHARE (default 1: hours, with software graphics).
 */
const share = Number(process.env['SOAK_SHARE'] ?? 1);
/** A part of each run goes before the first look at the heap: caches fill, code is compiled. */
const usualWarmUp = 0.1;
const mostGrowthPct = 5;

/** @returns how often it was really done. */
type Work = (page: Page, times: number) => Promise<number>;

export interface Run {
  readonly name: string;
  /** How often it is to be done in a whole run. */
  readonly usually: number;
  /** How often before the first look at the heap, where something is kept up to a bound that must be full by then. */
  readonly fullAfter?: number;
}

/** Runs the work, and looks at what is left behind. */
export async function soak(run: Run, work: Work): Promise<readonly Figure[]> {
  const { name, usually, fullAfter } = run;
  const launched = await launch();
  if (!launched) return [{ name, value: null, unit: 'times', limit: null, why: 'no Chromium' }];
  try {
    const times = Math.ceil(usually * share);
    const first = fullAfter ?? Math.ceil(usualWarmUp * times);
    return await soaked(
      launched,
      { name, first, times: fullAfter === undefined ? times : first + times },
      work,
    );
  } finally {
    await launched.close();
  }
}

async function soaked(
  { browser, origin }: Launched,
  { name, first, times }: { readonly name: string; readonly first: number; readonly times: number },
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
  await atRest(page);
  const heap = await context.newCDPSession(page);
  const startMs = performance.now();
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

export const counted = (page: Page): Promise<Counted> =>
  page.evaluate(() => ({ ...(window as unknown as { counted: Counted }).counted }));

async function leftBehind(page: Page): Promise<[maps: number, workers: number, addresses: number]> {
  const maps = await page.locator('.maplibregl-canvas').count();
  return [maps, page.workers().length, (await counted(page)).addresses];
}

/**
 * What the page holds after everything else was let go, without the code that the engine has compiled and the record that the
 * browser keeps of slow moments: they grow with work of whatever kind, in their own bounds, for as long as an hour.
 */
async function heapMb(page: Page, session: CDPSession): Promise<number> {
  await atRest(page);
  await page
    .getByRole('status')
    .filter({ hasText: /^Saved/ })
    .waitFor();
  await page.waitForTimeout(1500);
  for (let i = 0; i < 3; i++) await session.send('HeapProfiler.collectGarbage');
  return bytesOfPage(await heapSnapshot(session)) / 2 ** 20;
}

/** The part of a heap snapshot that is read here: one node after the other, so many numbers each. */
interface HeapSnapshot {
  readonly snapshot: {
    readonly meta: {
      readonly node_fields: readonly string[];
      readonly node_types: readonly [types: readonly string[], ...unknown[]];
    };
  };
  readonly nodes: readonly number[];
  readonly strings: readonly string[];
}

async function heapSnapshot(session: CDPSession): Promise<HeapSnapshot> {
  const chunks: string[] = [];
  const take = ({ chunk }: { readonly chunk: string }) => void chunks.push(chunk);
  session.on('HeapProfiler.addHeapSnapshotChunk', take);
  await session.send('HeapProfiler.takeHeapSnapshot', { reportProgress: false });
  session.off('HeapProfiler.addHeapSnapshotChunk', take);
  return JSON.parse(chunks.join('')) as HeapSnapshot;
}

/** What the engine keeps of code beside it, and the browser of moments in which it was slow. */
const notThePages = /^(system \/ |Performance\w+Timing$|blink::ScriptTimingInfo$|TaskAttributionTiming$)/;

function bytesOfPage({ snapshot: { meta }, nodes, strings }: HeapSnapshot): number {
  const width = meta.node_fields.length;
  const [type, name, size] = ['type', 'name', 'self_size'].map((field) =>
    meta.node_fields.indexOf(field),
  ) as [number, number, number];
  const [code, native] = ['code', 'native'].map((kind) => meta.node_types[0].indexOf(kind));
  let bytes = 0;
  for (let at = 0; at < nodes.length; at += width) {
    const kind = nodes[at + type];
    const isTheirs = kind === native && notThePages.test(strings[nodes[at + name] ?? -1] ?? '');
    if (kind !== code && !isTheirs) bytes += nodes[at + size] ?? NaN;
  }
  return bytes;
}
