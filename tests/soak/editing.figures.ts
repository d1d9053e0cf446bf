import type { Page } from 'playwright-core';
import { atHandMax } from '../../src/app/store/history';
import { soak } from './long-day';

export default async () => [
  ...(await soak({ name: 'edit-undo-pairs', usually: 30_000 }, (page, times) => editing(page, times, true))),
  ...(await soak({ name: 'edits-in-a-row', usually: 500, fullAfter: atHandMax }, (page, times) =>
    editing(page, times, false),
  )),
];

/**
 * A point is nudged by keys, and put back or not, over and over. Many nudges go by between two pictures, faster than any
 * hand: plan and map follow as they can, and the device is waited for now and then, so that nothing piles up on its way
 * there.
 */
async function editing(page: Page, times: number, withUndo: boolean): Promise<number> {
  const edit = page.getByRole('button', { name: 'Edit points' });
  if ((await edit.getAttribute('aria-pressed')) !== 'true') await edit.click();
  await page.getByText('Drag a point').first().waitFor();
  await page.locator('.maplibregl-canvas').focus();
  await page.keyboard.press(']');
  await page.locator('.map .chosen').waitFor();
  let done = 0;
  for (let left = times; left > 0; left -= betweenWaits) {
    done += await page.evaluate(nudgesInPage, { times: Math.min(left, betweenWaits), withUndo });
    await page
      .getByRole('status')
      .filter({ hasText: /^Saved/ })
      .waitFor();
  }
  return done;
}

const betweenWaits = 250;

/** Runs in the page. @returns nudges that were seen to move the point, and to be undone. */
async function nudgesInPage({ times, withUndo }: { times: number; withUndo: boolean }): Promise<number> {
  const inOnePicture = 40;
  const canvas = document.querySelector('.maplibregl-canvas');
  const ring = document.querySelector<HTMLElement>('.map .chosen');
  if (!canvas || !ring) throw new Error('The page is not as expected');
  const key = (of: EventTarget, init: KeyboardEventInit) =>
    of.dispatchEvent(new KeyboardEvent('keydown', { bubbles: true, cancelable: true, ...init }));
  /** What is shown follows in microtasks. */
  const isThere = async (isShown: (place: string) => boolean) => {
    for (let i = 0; i < 20 && !isShown(ring.style.transform); i++) await Promise.resolve();
    return isShown(ring.style.transform);
  };
  const turn = () => new Promise((resolve) => setTimeout(resolve, 0));
  let done = 0;
  for (let i = 0; i < times; i++) {
    const before = ring.style.transform;
    key(canvas, { key: ['ArrowUp', 'ArrowLeft', 'ArrowDown', 'ArrowRight'][i % 4] ?? '' });
    const isMoved = await isThere((place) => place !== before);
    if (withUndo) key(window, { key: 'z', ctrlKey: true });
    if (isMoved && (!withUndo || (await isThere((place) => place === before)))) done++;
    if (i % inOnePicture === 0) await turn();
  }
  return done;
}
