import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { builtApp } from './built-app';
import { dropFiles, ledgerModes, onPage, settled } from './gestures';
import { inBrowser } from './harness';
import { serveFolder } from './static-server';

/** The first visit is over: everything lies on the device. */
async function kept(page: Page): Promise<void> {
  await page.evaluate(async () => (await navigator.serviceWorker.ready).active?.state);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
}

inBrowser('without a network', (harness) => {
  test('E11 after a first visit the page opens, reads files, plans and makes the sheet', async () => {
    const open = await harness.open();
    const { page, context } = open;
    await settled(page);
    const rows = await ledgerModes(page);
    await kept(page);
    await context.setOffline(true);
    await page.reload();
    await page.locator('.ledger table').first().waitFor();
    await settled(page);
    expect(await ledgerModes(page)).toEqual(rows);

    await dropFiles(page, [resolve(import.meta.dirname, '../../sample-tracks/ombry-recorded-day.gpx')]);
    await page.getByRole('button', { name: /A line to plan/ }).click();
    await page.getByRole('button', { name: /^Undo open/ }).waitFor({ state: 'attached' });
    await settled(page);
    await expect.poll(() => ledgerModes(page)).not.toEqual(rows);
    for (const name of ['Projects', 'On the way', 'What if', 'Figures', 'Ledger']) await onPage(page, name);
    await page.getByRole('button', { name: 'Sheet', exact: true }).click();
    await page.getByRole('button', { name: 'Print or save as PDF' }).waitFor();
    await page.locator('.sheet-view table').first().waitFor();
    await open.close();
  });

  test('every file of the build lies on the device', async () => {
    const open = await harness.open();
    const { page, context } = open;
    await kept(page);
    await context.setOffline(true);
    const folder = await builtApp();
    const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
      (path) => statSync(join(folder, path)).isFile() && path !== 'sw.js' && !path.startsWith('_'),
    );
    const missing = await page.evaluate(async (all) => {
      const answers = await Promise.all(all.map((path) => fetch(`./${path}`).catch(() => null)));
      return all.filter((_, i) => !answers[i]?.ok);
    }, paths);
    expect(paths.length).toBeGreaterThan(20);
    expect(missing.filter((path) => path !== 'index.html')).toEqual([]);
    await open.close();
  });

  test('E9 E10 a newer build waits until it is asked for; the page says so and never reloads by itself', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'firnward-build-'));
    cpSync(await builtApp(), folder, { recursive: true });
    const server = await serveFolder(folder);
    try {
      const open = await harness.open({ at: server.origin });
      const { page } = open;
      await settled(page);
      await kept(page);
      await page.evaluate(() => ((window as unknown as { sameLife: boolean }).sameLife = true));
      const worker = readFileSync(join(folder, 'sw.js'), 'utf8');
      writeFileSync(join(folder, 'sw.js'), worker.replace(/'firnward-\w+'/, "'firnward-newer'"));
      await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
      await page.getByText('A new version of Firnward is ready').waitFor();
      const isSameLife = () =>
        page.evaluate(() => (window as unknown as { sameLife?: boolean }).sameLife === true);
      expect(await isSameLife()).toBe(true);
      await page.getByRole('button', { name: 'Use it now' }).click();
      await expect.poll(() => isSameLife().catch(() => true)).toBe(false);
      await page.locator('.ledger table').first().waitFor();
      const names = await page.evaluate(() => caches.keys());
      expect(names).toContain('firnward-newer');
      expect(names).toHaveLength(2);
      await open.close();
    } finally {
      server.close();
      rmSync(folder, { recursive: true, force: true });
    }
  });
});
