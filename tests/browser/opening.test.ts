import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { dropFiles, ledgerModes, settled } from './gestures';
import { expectQuiet, inBrowser } from './harness';

const data = process.env['FIRNWARD_DATA'] ?? '';

describe.skipIf(!existsSync(resolve(data, 'dem')) || data === '')('with real files', () => {
  inBrowser('opening files', (harness) => {
    test('a raster and a track of an own place take the place of the demo, and are there after a reload', async () => {
      const open = await harness.open();
      const { page } = open;
      await settled(page);
      await dropFiles(page, [
        resolve(data, 'lines/arolla_glacier_10m_lv95.gpx'),
        resolve(data, 'dem/arolla_glacier_10m_lv95.tif'),
      ]);
      await page.getByRole('button', { name: /^Undo open/ }).waitFor();
      await settled(page);
      expect(await page.locator('header .name').innerText()).not.toContain('Ombry');
      const rows = await ledgerModes(page);
      expect(rows.some((row) => /roped travel|running belay|pitched belay/.test(row))).toBe(true);
      await page.reload();
      await page.locator('.ledger table').first().waitFor();
      await settled(page);
      expect(await ledgerModes(page)).toEqual(rows);
      expectQuiet(open);
      await open.close();
    });
  });
});

inBrowser('opening bad files', (harness) => {
  test('each is answered beside the page by name and remedy, and the plan stays', async () => {
    const open = await harness.open();
    const { page } = open;
    await settled(page);
    const before = await ledgerModes(page);
    const transfer = await page.evaluateHandle(() => {
      const made = new DataTransfer();
      made.items.add(new File(['hello'], 'hello.tif'));
      made.items.add(new File(['<gpx></gpx>'], 'empty.gpx'));
      made.items.add(new File(['{"format":"firnward-project","version":99}'], 'new.firnward.json'));
      return made;
    });
    await page.dispatchEvent('body', 'drop', { dataTransfer: transfer });
    const alerts = page.getByRole('alert');
    await alerts.nth(2).waitFor();
    const words = await alerts.allInnerTexts();
    for (const name of ['hello.tif', 'empty.gpx', 'new.firnward.json'])
      expect(words.some((text) => text.includes(name))).toBe(true);
    expect(await ledgerModes(page)).toEqual(before);
    await open.close();
  });
});
