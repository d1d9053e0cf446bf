import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { ledgerModes, settled } from './gestures';
import { expectQuiet, inBrowser } from './harness';

const axePath = createRequire(import.meta.url).resolve('axe-core/axe.min.js');

/** Rules of WCAG 2.2 A and AA that axe-core can decide by itself, broken with serious or critical impact. */
async function serious(page: Page): Promise<string[]> {
  // Through the protocol: the page's own policy lets no strange script in.
  await page.evaluate(readFileSync(axePath, 'utf8'));
  return page.evaluate(async () => {
    const { axe } = window as unknown as { axe: typeof import('axe-core') };
    const { violations } = await axe.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
    });
    return violations
      .filter(({ impact }) => impact === 'serious' || impact === 'critical')
      .map(
        ({ id, nodes }) =>
          `${id}: ${nodes
            .map(({ target }) => target.join(' '))
            .slice(0, 5)
            .join(' | ')}`,
      );
  });
}

inBrowser('for everybody', (harness) => {
  test('axe finds nothing serious on any page beside the map, in any theme', async () => {
    const open = await harness.open({ width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    const found: string[] = [];
    for (const theme of ['day', 'glare', 'night']) {
      await page.getByLabel('Theme').selectOption(theme);
      for (const tab of await page.getByRole('tab').all()) {
        await tab.click();
        const name = await tab.innerText();
        found.push(...(await serious(page)).map((words) => `${theme}, ${name}: ${words}`));
      }
    }
    expect(found).toEqual([]);
    await open.close();
  });

  test('a line is drawn, and its snow changed, by keyboard alone', async () => {
    const open = await harness.open();
    const { page } = open;
    await settled(page);
    const before = await ledgerModes(page);
    await focusOn(page, 'Draw line');
    await page.keyboard.press('Enter');
    await page.getByText('Click the first point.').first().waitFor();
    await page.locator('.maplibregl-canvas').focus();
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
    await focusOn(page, 'Snow');
    await page.keyboard.press('Enter');
    await page
      .getByRole('radio', { name: /^pencil|^knife/ })
      .first()
      .focus();
    await page.keyboard.press('ArrowDown');
    await settled(page);
    await page.getByRole('button', { name: 'Undo change snow' }).waitFor();
    expectQuiet(open);
    await open.close();
  });
});

/** Walks with Tab until the element of that name has the focus: it must be reachable. */
async function focusOn(page: Page, name: string): Promise<void> {
  for (let i = 0; i < 120; i++) {
    await page.keyboard.press('Tab');
    const focused = await page.evaluate(() => document.activeElement?.textContent?.trim() ?? '');
    if (focused === name) return;
  }
  throw new Error(`Tab never came to ${name}`);
}
