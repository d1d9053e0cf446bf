import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { parts, steps } from '../../src/app/side-pages';

/** Drops files on the middle of the window, as from a file manager. */
export async function dropFiles(page: Page, paths: readonly string[]): Promise<void> {
  const files = paths.map((path) => ({
    name: basename(path),
    base64: readFileSync(path).toString('base64'),
  }));
  await dropBase64(page, files);
}

/** The map's canvas in page coordinates. */
export async function mapBox(page: Page): Promise<{ x: number; y: number; width: number; height: number }> {
  const box = await page.locator('.maplibregl-canvas').boundingBox();
  if (!box) throw new Error('The map is not shown');
  return box;
}

/** A place on the map by its share of width and height. */
export async function mapPoint(page: Page, across: number, down: number): Promise<{ x: number; y: number }> {
  const { x, y, width, height } = await mapBox(page);
  return { x: x + across * width, y: y + down * height };
}

/** The ledger's rows of the way there, in order. */
export const ledgerModes = (page: Page): Promise<string[]> =>
  page
    .locator('.ledger table')
    .first()
    .locator('tbody tr')
    .evaluateAll((rows) => rows.map((row) => row.textContent ?? ''));

/** Waits until the plan stands; what other snow would change may still be tried beside it. */
export async function settled(page: Page): Promise<void> {
  await page.waitForFunction(() =>
    ['no', 'settled'].includes(document.querySelector('.app')?.getAttribute('data-working') ?? ''),
  );
}

/** Waits until nothing at all is worked on. */
export async function atRest(page: Page): Promise<void> {
  await page.waitForFunction(() => document.querySelector('.app')?.getAttribute('data-working') === 'no');
}

/** Drops files made of text or bytes. */
export async function dropTexts(
  page: Page,
  files: Readonly<Record<string, string | Uint8Array>>,
): Promise<void> {
  const given = Object.entries(files).map(([name, content]) => ({
    name,
    base64: Buffer.from(content).toString('base64'),
  }));
  await dropBase64(page, given);
}

async function dropBase64(
  page: Page,
  files: readonly { readonly name: string; readonly base64: string }[],
): Promise<void> {
  const transfer = await page.evaluateHandle((given) => {
    const made = new DataTransfer();
    for (const { name, base64 } of given)
      made.items.add(new File([Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))], name));
    return made;
  }, files);
  await page.dispatchEvent('body', 'dragover', { dataTransfer: transfer });
  await page.dispatchEvent('body', 'drop', { dataTransfer: transfer });
}

/** Everything beside the map, by the name on its tab or on its step of the preparation. */
export const pageNames: readonly string[] = [...parts, ...steps].map(({ label }) => label);

/** Turns to one of them. */
export async function onPage(page: Page, name: string): Promise<void> {
  const isPart = parts.some(({ label }) => label === name);
  await page.getByRole('tab', { name: isPart ? name : 'Prepare', exact: true }).click();
  if (isPart) return;
  const step = stepButton(page, name);
  await step.waitFor();
  if ((await step.getAttribute('aria-expanded')) !== 'true') await step.click();
}

/** The head of one step of the preparation. */
export const stepButton = (page: Page, name: string): Locator =>
  page.locator('.steps').getByRole('button', { name: new RegExp(`^${name} `) });

/** What was said last to screen readers. */
export const said = (page: Page): Promise<string> => page.locator('.announce').innerText();

export const undoButton = (page: Page): Locator => page.getByRole('button', { name: /^Undo/ });

/** Takes the map's graphics away, and gives them back after a while; Infinity: never. */
export const loseGraphics = (page: Page, backAfterMs: number): Promise<void> =>
  page.evaluate((ms) => {
    const canvas = document.querySelector('.maplibregl-canvas') as HTMLCanvasElement;
    const context = canvas.getContext('webgl2')?.getExtension('WEBGL_lose_context');
    context?.loseContext();
    if (Number.isFinite(ms)) setTimeout(() => context?.restoreContext(), ms);
  }, backAfterMs);
