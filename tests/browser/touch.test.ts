import type { CDPSession, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { mapPoint, onPage, settled, undoButton } from './gestures';
import { expectQuiet, inBrowser } from './harness';

type At = { readonly x: number; readonly y: number };

/** Fingers on the glass, in CSS pixels; an empty list: all are lifted. */
const fingers = (session: CDPSession, type: 'touchStart' | 'touchMove' | 'touchEnd', at: readonly At[]) =>
  session.send('Input.dispatchTouchEvent', { type, touchPoints: at.map(({ x, y }, id) => ({ x, y, id })) });

async function drag(session: CDPSession, from: At, to: At): Promise<void> {
  await fingers(session, 'touchStart', [from]);
  for (let i = 1; i <= 5; i++)
    await fingers(session, 'touchMove', [
      { x: from.x + (i / 5) * (to.x - from.x), y: from.y + (i / 5) * (to.y - from.y) },
    ]);
  await fingers(session, 'touchEnd', []);
}

const tap = async (page: Page, { x, y }: At) => {
  await page.touchscreen.tap(x, y);
  await page.waitForTimeout(350);
};
const middle = ({ x, y, width, height }: At & { width: number; height: number }): At => ({
  x: x + width / 2,
  y: y + height / 2,
});

inBrowser('a phone, by touch', (harness) => {
  test('D8, E27 pages pull up; a line is drawn and its points dragged; two fingers pinch and draw nothing', async () => {
    const open = await harness.open({ width: 360, height: 740, touch: true });
    const { page, context } = open;
    await settled(page);
    const session = await context.newCDPSession(page);
    await page.getByRole('button', { name: 'Put these words away' }).tap();

    // The sheet at the foot is dragged up, and pushed down.
    const side = page.locator('.side');
    const handle = page.locator('.handle');
    const low = (await side.boundingBox())?.height ?? NaN;
    const at = middle((await handle.boundingBox()) ?? { x: NaN, y: NaN, width: NaN, height: NaN });
    await drag(session, at, { x: at.x, y: at.y - 60 });
    await expect.poll(async () => (await side.boundingBox())?.height ?? 0).toBeGreaterThan(low + 100);
    await onPage(page, 'Ledger');
    await page.locator('.totals').first().waitFor();
    await handle.press('ArrowUp');
    await page.getByRole('button', { name: 'Push the pages down' }).waitFor();
    await handle.press('ArrowDown');
    await handle.press('ArrowDown');
    await expect.poll(async () => (await side.boundingBox())?.height).toBe(low);

    // Everything there is to press is large enough for a thumb in a glove.
    const small = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('button, select, [role="tab"], input')]
        .filter((each) => each.checkVisibility() && !each.closest('.hidden, .visually-hidden'))
        .filter((each) => getComputedStyle(each).clipPath === 'none')
        .map((each) => ({ name: each.ariaLabel ?? each.innerText, box: each.getBoundingClientRect() }))
        .filter(({ box }) => box.width > 2 && (box.height < 43.5 || box.width < 43.5))
        .map(({ name, box }) => `${name}: ${Math.round(box.width)} x ${Math.round(box.height)}`),
    );
    expect(small).toEqual([]);

    await page.getByRole('button', { name: 'Draw line' }).tap();
    await page.locator('.hint').getByText('Click the first point.').waitFor();
    const places = [
      await mapPoint(page, 0.45, 0.7),
      await mapPoint(page, 0.55, 0.5),
      await mapPoint(page, 0.5, 0.3),
    ] as const;
    await tap(page, places[0]);
    await tap(page, places[1]);
    const running = await page.locator('.hint b').innerText();
    // A pinch: two fingers, apart and away.
    const [a, b] = [places[1], { x: places[1].x + 40, y: places[1].y + 40 }];
    await fingers(session, 'touchStart', [a]);
    await fingers(session, 'touchStart', [a, b]);
    await fingers(session, 'touchMove', [{ x: a.x - 20, y: a.y - 20 }, b]);
    await fingers(session, 'touchEnd', []);
    await page.waitForTimeout(350);
    expect(await page.locator('.hint b').innerText()).toBe(running);
    await tap(page, places[2]);
    await page.getByRole('button', { name: 'Finish' }).tap();
    await page.getByRole('button', { name: 'Undo draw line' }).waitFor();
    await settled(page);

    // The end of the line under a finger.
    await page.getByRole('button', { name: 'Edit points' }).tap();
    await page.getByText('Drag a point').first().waitFor();
    await page.getByRole('slider', { name: 'Place along the line' }).press('End');
    const end = middle(
      (await page.locator('.map .cursor').boundingBox()) ?? { x: NaN, y: NaN, width: NaN, height: NaN },
    );
    await drag(session, end, { x: end.x + 30, y: end.y + 20 });
    await expect.poll(() => undoButton(page).getAttribute('aria-label')).toMatch(/^Undo move point/);
    expectQuiet(open);
    await open.close();
  });
});
