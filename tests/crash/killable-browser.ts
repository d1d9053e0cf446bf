import { spawn } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { chromium, type Page } from 'playwright-core';

/** A browser with a profile of its own that can be killed like a process in the dark: all of it, at once, unasked. */
export interface Killable {
  readonly page: Page;
  readonly kill: () => Promise<void>;
}

const startsWithinMs = 60_000;

export async function startBrowser(executablePath: string, profile: string): Promise<Killable> {
  const portFile = join(profile, 'DevToolsActivePort');
  rmSync(portFile, { force: true });
  const args = [
    '--headless=new',
    '--no-sandbox',
    '--disable-quic',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    // The map is not what is tried here, and drawing it takes the processor.
    '--disable-gpu',
    '--disable-software-rasterizer',
    '--remote-debugging-port=0',
    `--user-data-dir=${profile}`,
    'about:blank',
  ];
  const child = spawn(executablePath, args, { detached: true, stdio: 'ignore' });
  const gone = new Promise<void>((done) => child.once('exit', () => done()));
  const kill = async () => {
    try {
      if (child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
    } catch {
      // Gone already.
    }
    await gone;
  };
  try {
    const untilMs = Date.now() + startsWithinMs;
    while (!existsSync(portFile) || !readFileSync(portFile, 'utf8').includes('\n')) {
      if (Date.now() > untilMs) throw new Error('The browser does not start');
      await new Promise((next) => setTimeout(next, 25));
    }
    const [port] = readFileSync(portFile, 'utf8').split('\n');
    const browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`);
    const context = browser.contexts()[0];
    const page = context?.pages()[0] ?? (await context?.newPage());
    if (!page) throw new Error('The browser has no page');
    return { page, kill };
  } catch (reason) {
    await kill();
    throw reason;
  }
}
