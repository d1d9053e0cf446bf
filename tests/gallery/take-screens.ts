import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { launch } from '../browser/launch';
import { visits, type Visit } from './visits';

/** Takes the pictures of every visit, or of those whose name holds one of the words, into a folder, with their index. */
export async function takeScreens(folder: string, words: readonly string[]): Promise<void> {
  const launched = await launch();
  if (!launched) throw new Error('No Chromium found: set CHROMIUM_PATH');
  const chosen = visits.filter(({ name }) => words.length === 0 || words.some((word) => name.includes(word)));
  const failed: string[] = [];
  try {
    const encoder = await launched.browser.newPage();
    for (const visit of chosen) {
      try {
        await take(launched.browser, launched.origin, visit, folder, encoder);
      } catch (reason) {
        failed.push(visit.name);
        console.error(reason);
      }
    }
  } finally {
    await launched.close();
  }
  await writeFile(join(folder, 'README.md'), index());
  if (failed.length > 0) throw new Error(`Not finished: ${failed.join(', ')}`);
}

async function take(
  browser: Browser,
  origin: string,
  visit: Visit,
  folder: string,
  encoder: Page,
): Promise<void> {
  const { widthPx, heightPx, isTouch = false, place } = visit;
  const context = await browser.newContext({
    viewport: { width: widthPx, height: heightPx },
    hasTouch: isTouch,
    isMobile: isTouch,
    locale: 'en-GB',
    ...(place ? { permissions: ['geolocation'], geolocation: place } : {}),
  });
  await visit.prepare?.(context);
  const page = await context.newPage();
  // A picture is worth waiting for on a busy machine.
  page.setDefaultTimeout(240_000);
  await page.goto(origin);
  for (const [name, , show] of visit.screens) {
    await show(page);
    await page.waitForTimeout(restMs);
    const file = `${visit.name}-${name}.webp`;
    await writeFile(join(folder, file), await webp(encoder, await page.screenshot()));
    console.log(file);
  }
  await context.close();
}

/** The map's last tiles come, and what moves comes to rest. */
const restMs = 900;

/** The same picture in a third of the bytes, written by the browser itself. */
async function webp(encoder: Page, png: Buffer): Promise<Buffer> {
  const base64 = await encoder.evaluate(async (given) => {
    const picture = await createImageBitmap(
      new Blob([Uint8Array.from(atob(given), (character) => character.charCodeAt(0))]),
    );
    const canvas = document.createElement('canvas');
    canvas.width = picture.width;
    canvas.height = picture.height;
    canvas.getContext('2d')?.drawImage(picture, 0, 0);
    return canvas.toDataURL('image/webp', 0.5).split(',')[1] ?? '';
  }, png.toString('base64'));
  return Buffer.from(base64, 'base64');
}

const index = (): string =>
  [
    '# Every screen and theme',
    '',
    'Taken by `npm run screens` from the production build with the invented demo. People look at them; no test compares them.',
    '',
    ...visits.flatMap(({ name, about, screens }) => [
      `## ${about}`,
      '',
      '| picture | shows |',
      '| --- | --- |',
      ...screens.map(([screen, shows]) => `| [${name}-${screen}](${name}-${screen}.webp) | ${shows} |`),
      '',
    ]),
  ].join('\n');
