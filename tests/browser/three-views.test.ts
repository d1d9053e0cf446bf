import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { ledgerModes, onPage, said, settled } from './gestures';
import { expectQuiet, inBrowser } from './harness';

const plot = (page: Page) => page.getByRole('slider', { name: 'Place along the line' });
const rows = (page: Page) => page.locator('.ledger table').first().locator('tbody tr');
const placeM = async (page: Page) => Number(await plot(page).getAttribute('aria-valuenow'));
const undo = (page: Page, name: RegExp | string) => page.getByRole('button', { name }).first();

/** A place of the line on the map, in page coordinates, by its share of the line. */
async function onMap(page: Page, share: number): Promise<{ x: number; y: number }> {
  const lengthM = Number(await plot(page).getAttribute('aria-valuemax'));
  await plot(page).focus();
  await page.keyboard.press('Home');
  while ((await placeM(page)) < share * lengthM) await page.keyboard.press('Shift+ArrowRight');
  const box = await page.locator('.map .cursor').boundingBox();
  if (!box) throw new Error('The cursor is not on the map');
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

inBrowser('map, ribbon and ledger', (harness) => {
  test('follow one pointer within a frame, and one choice', async () => {
    const open = await harness.open({ width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    const seen = await page.evaluate(async () => {
      const box = document.querySelector('.ribbon .plot')!.getBoundingClientRect();
      const frame = () => new Promise((resolve) => requestAnimationFrame(resolve));
      const states: string[] = [];
      for (const share of [0.2, 0.5, 0.8]) {
        const at = { clientX: box.left + share * box.width, clientY: box.top + 60, bubbles: true };
        document.querySelector('.ribbon .plot')!.dispatchEvent(new PointerEvent('pointermove', at));
        await frame();
        const cursor = document.querySelector<HTMLElement>('.map .at')?.style.transform ?? '';
        const row = document.querySelector('.ledger tr.at-cursor th')?.textContent?.trim() ?? '';
        states.push(`${cursor} ${row}`);
      }
      return states;
    });
    expect(new Set(seen).size).toBe(3);
    for (const state of seen) expect(state).toMatch(/translate\(.*px.*\) \d+/);

    // A row of the ledger chooses on the ribbon and on the map; the pointer leaving does not lose it.
    await rows(page).nth(3).getByRole('button').click();
    await page.getByRole('region', { name: 'If someone slips here' }).waitFor();
    expect(await page.locator('.ribbon rect.selected').count()).toBe(1);
    await expect.poll(() => page.locator('.map .cursor').count()).toBe(1);
    const held = await placeM(page);
    await plot(page).hover({ position: { x: 200, y: 60 } });
    expect(await placeM(page)).not.toBe(held);
    await page.mouse.move(5, 5);
    await expect.poll(() => placeM(page)).toBe(held);
    await page.getByRole('button', { name: 'Close slip card' }).click();
    expect(await page.locator('.ribbon rect.selected').count()).toBe(0);

    // Sorted by a heading, either way, and back; and read by the one mode that is looked for.
    const first = async () => (await ledgerModes(page))[0];
    const there = page.locator('.ledger').getByRole('region', { name: 'Segments', exact: true });
    const steepest = there.getByRole('button', { name: /sort by steepest/ });
    await steepest.click();
    expect(await there.locator('th[aria-sort="descending"]').innerText()).toContain('Steep');
    const steep = await first();
    await steepest.click();
    expect(await first()).not.toBe(steep);
    await there.getByRole('button', { name: /^No\./ }).click();
    expect(await first()).toMatch(/^\s*1/);
    expectQuiet(open);
    await open.close();
  });

  test('stretches are drawn along the ribbon and along the line, marks placed from both', async () => {
    const open = await harness.open({ width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    const before = await ledgerModes(page);
    const box = await plot(page).boundingBox();
    if (!box) throw new Error('No ribbon');
    await page.mouse.move(box.x + 150, box.y + 60);
    await page.mouse.down();
    await page.mouse.move(box.x + 260, box.y + 60, { steps: 4 });
    await page.mouse.up();
    await undo(page, /^Undo override/).waitFor();
    const stretch = page.getByRole('form', { name: 'Stretch' });
    await stretch.getByLabel('Technique').selectOption('pitched-belay');
    await settled(page);
    await onPage(page, 'Ledger');
    const painted = await ledgerModes(page);
    expect(painted).not.toEqual(before);
    expect(painted.some((row) => row.includes('pitched belay') && row.includes('own choice'))).toBe(true);
    await expect.poll(() => said(page)).toMatch(/: time .*, before .*; \d+ segments/);

    const [from, to] = [await onMap(page, 0.3), await onMap(page, 0.36)];
    await page.getByRole('button', { name: 'Set stretch' }).click();
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(to.x, to.y, { steps: 5 });
    await page.mouse.up();
    await expect.poll(() => page.getByRole('form', { name: 'Stretch' }).count()).toBe(2);
    const own = page.getByRole('form', { name: 'Stretch' }).last();
    await own.getByLabel('Snow', { exact: true }).selectOption('K');
    await own.getByLabel('Run-out').selectOption('deadly');
    await settled(page);

    await plot(page).focus();
    await page.keyboard.press('Home');
    await page.keyboard.press('PageDown');
    await page.getByLabel('Mark here').selectOption('cornice');
    await undo(page, 'Undo place cornice').waitFor();
    await page.locator('summary').getByText('cornice').waitFor();
    const at = await onMap(page, 0.5);
    await page.getByRole('button', { name: 'Mark', exact: true }).click();
    await page.getByRole('button', { name: 'no standing' }).click();
    await page.mouse.click(at.x, at.y);
    await undo(page, 'Undo place no standing').waitFor();
    expectQuiet(open);
    await open.close();
  });

  test('a line is cut where it was chosen, joined, tried simpler, and every step has its name over a reload', async () => {
    const open = await harness.open({ width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    const lengthM = Number(await plot(page).getAttribute('aria-valuemax'));
    await plot(page).focus();
    await page.keyboard.press('End');
    await page.keyboard.press('PageUp');
    await page.keyboard.press('Enter');
    await onPage(page, 'Line');
    await page.getByRole('button', { name: 'Keep a copy as alternative' }).click();
    await undo(page, 'Undo keep a copy as alternative').waitFor();
    await page.getByRole('button', { name: 'Cut away what follows' }).click();
    await undo(page, /^Undo keep the line before/).waitFor();
    await settled(page);
    const cutM = Number(await plot(page).getAttribute('aria-valuemax'));
    expect(cutM).toBeLessThan(lengthM);
    await page.getByRole('button', { name: 'Join to the end' }).last().click();
    await undo(page, /^Undo join/).waitFor();
    await settled(page);
    expect(Number(await plot(page).getAttribute('aria-valuemax'))).toBeGreaterThan(lengthM);
    // What simplifying would leave out is seen before it is done.
    const words = page.getByRole('button', { name: /^Leave out \d+ points/ });
    const few = await words.innerText();
    await page.getByLabel('Simplify within').fill('50');
    await expect.poll(() => words.innerText()).not.toBe(few);
    await words.click();
    await undo(page, 'Undo simplify line within 50 m').waitFor();
    await page.waitForFunction(() => document.querySelector('header .saved')?.textContent?.includes('Saved'));
    await page.reload();
    await settled(page);
    for (const name of [/^Undo simplify line within 50 m/, /^Undo join/, /^Undo keep the line before/]) {
      await undo(page, name).click();
      await settled(page);
    }
    expect(Number(await plot(page).getAttribute('aria-valuemax'))).toBe(lengthM);
    expectQuiet(open);
    await open.close();
  });
});
