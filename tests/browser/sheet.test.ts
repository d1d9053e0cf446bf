import { expect, test } from 'vitest';
import { settled } from './gestures';
import { expectQuiet, inBrowser } from './harness';
import { pdfPages } from './pdf-text';

/**
 * Structure elements of one kind in a tagged PDF, which stand unpacked in its objects.
 *
 * @source ISO 32000-1:2008, 14.7.2 (structure elements: /S names the kind) and 14.8.4.3.4 (table elements).
 */
const tagged = (pdf: Buffer, kind: string): number =>
  pdf.toString('latin1').match(new RegExp(`/S\\s*/${kind}\\b`, 'g'))?.length ?? 0;

inBrowser('the sheet', (harness) => {
  test('prints the demo on one page, A4 and Letter, with the segment table in it and nothing of the page around it', async () => {
    const open = await harness.open();
    const { page } = open;
    await settled(page);
    const rows = await page.locator('.ledger table tbody tr').count();
    await page.getByRole('button', { name: 'Sheet' }).click();
    await page.locator('.sheet table').first().waitFor();
    const pdf = await page.pdf({ preferCSSPageSize: true, tagged: true });
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
    expect(tagged(pdf, 'Table')).toBeGreaterThan(1);
    expect(tagged(pdf, 'TR')).toBeGreaterThan(rows);
    for (const paper of ['a4', 'letter']) {
      await page.getByLabel('Paper').selectOption(paper);
      await page.evaluate(() => document.fonts.ready);
      const pages = pdfPages(await page.pdf({ preferCSSPageSize: true }));
      expect(pages).toHaveLength(1);
      expect(pages[0]?.text).toContain('page 1of 1');
      expect(Math.min(...(pages[0]?.shown ?? []).map(({ sizePt }) => sizePt))).toBeGreaterThan(9.98);
    }
    await page.emulateMedia({ media: 'print' });
    expect(await page.getByRole('button', { name: 'Undo' }).isVisible()).toBe(false);
    expect(await page.locator('.sheet').isVisible()).toBe(true);
    expectQuiet(open);
    await open.close();
  });

  test('goes back to the plan with the map as it was', async () => {
    const open = await harness.open();
    const { page } = open;
    await settled(page);
    await page.getByRole('button', { name: 'Sheet' }).click();
    await page.locator('.sheet table').first().waitFor();
    await page.getByRole('button', { name: 'Back to the plan' }).click();
    expect(await page.locator('.maplibregl-canvas').isVisible()).toBe(true);
    expect(await page.locator('.maplibregl-canvas').count()).toBe(1);
    expectQuiet(open);
    await open.close();
  });
});
