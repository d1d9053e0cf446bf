import { chromium, type Browser } from 'playwright-core';
import { builtApp } from './built-app';
import { findChromium } from './chromium';
import { serveFolder } from './static-server';

/** The built page served on this machine, and a real browser to open it in. */
export interface Launched {
  readonly browser: Browser;
  readonly origin: string;
  close(): Promise<void>;
}

export const executablePath = await findChromium();

/** null: there is no Chromium here. */
export async function launch(): Promise<Launched | null> {
  if (executablePath === null) return null;
  const server = await serveFolder(await builtApp());
  const browser = await chromium.launch({
    executablePath,
    args: ['--no-sandbox', '--disable-quic', '--no-first-run', '--disable-background-networking'],
  });
  return {
    browser,
    origin: server.origin,
    async close() {
      await browser.close();
      server.close();
    },
  };
}
