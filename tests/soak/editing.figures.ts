import type { Page } from 'playwright-core';
import { soak } from './long-day';

export default () => soak('edit-undo-pairs', 30_000, editing);

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
