import { expect, test } from 'vitest';
import { ledgerModes, settled } from './gestures';
import { inBrowser } from './harness';

inBrowser('without a network', (harness) => {
  test('after a first visit the page opens and plans again', async () => {
    const open = await harness.open();
    const { page, context } = open;
    await settled(page);
    const rows = await ledgerModes(page);
    await page.evaluate(async () => (await navigator.serviceWorker.ready).active?.state);
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    await context.setOffline(true);
    await page.reload();
    await page.locator('.ledger table').first().waitFor();
    await settled(page);
    expect(await ledgerModes(page)).toEqual(rows);
    await page.getByRole('button', { name: 'Draw line' }).click();
    await page.getByText('Click the first point.').first().waitFor();
    await open.close();
  });
});
