import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';

/** The browser the tests run in: named by CHROMIUM_PATH, installed, or from the optional package. null: none is here. */
export async function findChromium(): Promise<string | null> {
  const named = process.env['CHROMIUM_PATH'];
  if (named) return existsSync(named) ? named : null;
  for (const name of ['chromium', 'chromium-browser', 'google-chrome'])
    try {
      return execFileSync('which', [name], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }).trim();
    } catch {
      // Not on the path: try the next.
    }
  try {
    const { default: packaged } = await import('@sparticuz/chromium');
    return await packaged.executablePath();
  } catch {
    return null;
  }
}
