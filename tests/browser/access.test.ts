import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { ledgerModes, mapPoint, onPage, pageNames, settled, stepButton } from './gestures';
import { expectQuiet, inBrowser } from './harness';

const axePath = createRequire(import.meta.url).resolve('axe-core/axe.min.js');

/** Rules of WCAG 2.2 A and AA that axe-core can decide by itself, and that are broken, of whatever weight. */
async function broken(page: Page, within = 'html'): Promise<string[]> {
  // Through the protocol: the page's own policy lets no strange script in.
  await page.evaluate(readFileSync(axePath, 'utf8'));
  return page.evaluate(async (place) => {
    const { axe } = window as unknown as { axe: typeof import('axe-core') };
    const { violations } = await axe.run(place, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
    });
    return violations.map(
      ({ id, nodes }) =>
        `${id}: ${nodes
          .map(({ target, failureSummary }) => `${target.join(' ')} (${failureSummary ?? ''})`)
          .slice(0, 5)
          .join(' | ')}`,
    );
  }, within);
}

inBrowser('for everybody', (harness) => {
  test('axe finds nothing broken on any page beside the map, in any theme', async () => {
    const open = await harness.open({ width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    const found: string[] = [];
    for (const theme of ['day', 'glare', 'night']) {
      await page.getByLabel('Theme').selectOption(theme);
      for (const name of pageNames) {
        await onPage(page, name);
        found.push(...(await broken(page)).map((words) => `${theme}, ${name}: ${words}`));
      }
    }
    expect(found).toEqual([]);
    await open.close();
  });

  test('nor in anything that opens over the map, nor on the sheet', async () => {
    const open = await harness.open({ width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    const found: string[] = [];
    const look = async (what: string) =>
      found.push(...(await broken(page)).map((words) => `${what}: ${words}`));
    await page.getByRole('button', { name: 'Segment 2, open its slip card' }).click();
    await page.getByRole('region', { name: 'If someone slips here' }).waitFor();
    for (const what of ['Look of the map', 'Help and keys', 'Go to a place by coordinates', 'Mark']) {
      const button = page.getByRole('button', { name: what, exact: true });
      await button.click();
      await look(what);
      if (what === 'Go to a place by coordinates')
        await page.getByRole('button', { name: 'Close', exact: true }).click();
      else if (what === 'Help and keys') await page.getByRole('button', { name: 'Close help' }).click();
      else await button.click();
    }
    await page.locator('summary', { hasText: 'Save' }).click();
    // The open menu alone: what it lies over for a moment is no target meanwhile.
    found.push(...(await broken(page, 'header details')));
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Draw line' }).click();
    await page.locator('.hint').waitFor();
    await page.evaluate(() => {
      const made = new DataTransfer();
      made.items.add(new File(['hello'], 'hello.tif'));
      document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: made, bubbles: true }));
    });
    await page.getByRole('alert').first().waitFor();
    await look('a problem, and a line being drawn');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Sheet', exact: true }).click();
    await page.locator('.sheet-view').waitFor();
    await look('Sheet');
    expect(found).toEqual([]);
    await open.close();
  });

  test('nor on a phone 360 pixels wide', async () => {
    const open = await harness.open({ width: 360, height: 740, touch: true });
    const { page } = open;
    await settled(page);
    const found = await broken(page);
    await page.getByRole('button', { name: 'Pull the pages up' }).tap();
    // Tall: what is half under an edge until it is scrolled to is no small target.
    await page.setViewportSize({ width: 360, height: 4000 });
    for (const theme of ['night', 'glare', 'day']) {
      await page.getByLabel('Theme').selectOption(theme);
      const names = theme === 'day' ? pageNames : ['Prepare', 'Ledger'];
      for (const name of names) {
        await onPage(page, name);
        found.push(...(await broken(page)).map((words) => `${theme}, ${name}: ${words}`));
      }
    }
    expect(found).toEqual([]);
    await open.close();
  });

  test('E17 at 400 %, in forced colours and without motion nothing is cut off and everything can be done', async () => {
    // 1280 x 1024 at 400 %: WCAG 2.2, success criterion 1.4.10.
    const open = await harness.open({ width: 320, height: 256, colours: 'forced' });
    const { page } = open;
    await settled(page);
    const overhang = () =>
      page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    expect(await overhang()).toBe(0);
    expect(await broken(page)).toEqual([]);
    for (const name of pageNames) {
      await onPage(page, name);
      expect(await overhang(), name).toBe(0);
    }
    const before = await ledgerModesOn(page);
    await onPage(page, 'Snow');
    await page.getByRole('radio', { name: /^knife/ }).check();
    await settled(page);
    expect(await ledgerModesOn(page)).not.toEqual(before);
    await page.getByRole('button', { name: 'Draw line' }).click();
    await page.locator('.hint').getByText('Click the first point.').waitFor();
    for (const [across, down] of [
      [0.4, 0.6],
      [0.6, 0.4],
    ] as const) {
      const { x, y } = await mapPoint(page, across, down);
      await page.mouse.click(x, y);
      await page.waitForTimeout(350);
    }
    await page.getByRole('button', { name: 'Finish' }).click();
    await page.getByRole('button', { name: 'Undo draw line' }).waitFor();
    expectQuiet(open);
    await open.close();
  });

  test('E18 a line is drawn, and its snow changed, by keyboard alone', async () => {
    const open = await harness.open();
    const { page } = open;
    await settled(page);
    const before = await ledgerModes(page);
    await focusOn(page, 'Draw line');
    await page.keyboard.press('Enter');
    await page.getByText('Click the first point.').first().waitFor();
    await focusOn(page, /^Map/);
    await page.keyboard.press('x');
    for (const [key, times] of [
      ['ArrowDown', 6],
      ['ArrowUp', 8],
      ['ArrowRight', 5],
    ] as const) {
      for (let i = 0; i < times; i++) await page.keyboard.press(key);
      await page.keyboard.press('Enter');
      await page.waitForTimeout(400);
    }
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Undo draw line' }).waitFor();
    await settled(page);
    expect(await ledgerModes(page)).not.toEqual(before);
    // The tabs are one stop for the Tab key; arrows go from one to the next.
    await focusOn(page, 'Ledger');
    await page.keyboard.press('ArrowLeft');
    await page.getByRole('tab', { name: 'Prepare', selected: true }).waitFor();
    await focusOn(page, /^Snow/);
    await page.keyboard.press('Enter');
    await expect.poll(() => stepButton(page, 'Snow').getAttribute('aria-expanded')).toBe('true');
    await focusOn(page, /^(pencil|knife)/);
    await page.keyboard.press('ArrowDown');
    await settled(page);
    await page.getByRole('button', { name: 'Undo change snow' }).waitFor();
    expectQuiet(open);
    await open.close();
  });
});

async function ledgerModesOn(page: Page): Promise<string[]> {
  await onPage(page, 'Ledger');
  return ledgerModes(page);
}

/** Walks with Tab until the element of that name has the focus: it must be reachable. */
async function focusOn(page: Page, name: string | RegExp): Promise<void> {
  for (let i = 0; i < 120; i++) {
    await page.keyboard.press('Tab');
    const focused = await page.evaluate(() => {
      const here = document.activeElement;
      const label = here instanceof HTMLInputElement ? here.labels?.[0]?.textContent : here?.textContent;
      return (here?.getAttribute('aria-label') ?? label ?? '').trim();
    });
    if (typeof name === 'string' ? focused === name : name.test(focused)) return;
  }
  throw new Error(`Tab never came to ${String(name)}`);
}
