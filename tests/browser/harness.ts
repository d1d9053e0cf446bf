import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect } from 'vitest';
import { executablePath, launch, type Launched } from './launch';

/** How the tests open the built page in a real browser. */
export interface Harness {
  readonly origin: string;
  /** A page in a fresh profile. */
  open(options?: OpenOptions): Promise<OpenPage>;
}

export interface OpenOptions {
  readonly width?: number;
  readonly height?: number;
  readonly touch?: boolean;
  /** Before the page opens. */
  readonly prepare?: (context: BrowserContext) => Promise<unknown>;
  /** Another build than the one all tests share. */
  readonly at?: string;
  /** What follows the page's own address. */
  readonly hash?: string;
  /** Another host that this test may be asked of, as the start of its addresses. */
  readonly mayAsk?: string;
  readonly colours?: 'forced';
  /** Wait until the first plan is shown; default true. */
  readonly planned?: boolean;
  /** false: the line is drawn in ink and no map by software, which takes half the processor. For tests of all else. */
  readonly map?: boolean;
}

export interface OpenPage {
  readonly page: Page;
  readonly context: BrowserContext;
  /** What the page should never do: ask another host, break its policy, log an error. */
  readonly offences: string[];
  close(): Promise<void>;
}

/** A suite in a real Chromium; where there is none it says "not run". */
export function inBrowser(title: string, suite: (harness: Harness) => void): void {
  if (executablePath === null) {
    console.warn(`${title}: not run, no Chromium found (set CHROMIUM_PATH)`);
    describe.skip(title, () => suite(null as unknown as Harness));
    return;
  }
  describe(title, () => {
    let launched: Launched | null = null;
    beforeAll(async () => {
      launched = await launch();
    });
    afterAll(async () => {
      await launched?.close();
    });
    const running = (): Launched => {
      if (!launched) throw new Error('The browser is not running');
      return launched;
    };
    suite({
      get origin() {
        return running().origin;
      },
      open: (options) => openPage(running().browser, options?.at ?? running().origin, options),
    });
  });
}

async function openPage(
  browser: Browser,
  origin: string,
  {
    width = 800,
    height = 500,
    touch = false,
    planned = true,
    map = true,
    prepare,
    hash = '',
    mayAsk,
    colours,
  }: OpenOptions = {},
): Promise<OpenPage> {
  const context = await browser.newContext({
    viewport: { width, height },
    hasTouch: touch,
    isMobile: touch,
    ...(colours === 'forced' ? { forcedColors: 'active', reducedMotion: 'reduce' } : {}),
  });
  await context.addInitScript(() => {
    document.addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI }) =>
      console.error(`policy: ${violatedDirective} ${blockedURI}`),
    );
  });
  if (!map)
    await context.addInitScript(() => {
      const canvas = HTMLCanvasElement.prototype as unknown as Record<
        'getContext',
        (kind: string) => unknown
      >;
      canvas.getContext = new Proxy(canvas.getContext, {
        apply: (get, self, args: [string]) =>
          args[0].startsWith('webgl') ? null : Reflect.apply(get, self, args),
      });
    });
  await prepare?.(context);
  const page = await context.newPage();
  page.setDefaultTimeout(90_000);
  const offences: string[] = [];
  context.on('request', (request) => {
    const url = request.url();
    if (mayAsk !== undefined && url.startsWith(mayAsk)) return;
    if (!url.startsWith(origin) && !url.startsWith('data:') && !url.startsWith('blob:'))
      offences.push(`request to ${url}`);
  });
  context.on('console', (message) => {
    if (message.type() === 'error') offences.push(`console: ${message.text()}`);
  });
  page.on('pageerror', (error) => offences.push(`error: ${error.message}`));
  await page.goto(origin + hash);
  // On a phone the ledger lies below the edge until it is pulled up.
  if (planned) await page.locator('.ledger table').first().waitFor({ state: 'attached' });
  return {
    page,
    context,
    offences,
    async close() {
      await context.close();
      expect(offences.filter((text) => grave.test(text))).toEqual([]);
    },
  };
}

/** What no page may ever do, whatever a test makes it log: held at the end of every test. */
const grave = /^request to|policy|^error/i;

/** Nothing was asked of another host, no policy broken, no error logged. */
export const expectQuiet = ({ offences }: OpenPage): void => expect(offences).toEqual([]);
