import { resolve } from 'node:path';
import { expect, test } from 'vitest';
import { dropFiles, ledgerModes, mapPoint, onPage, settled } from './gestures';
import { expectQuiet, inBrowser } from './harness';
import { colourCount, pixels } from './pixels';

const samples = resolve(import.meta.dirname, '../../sample-tracks');

inBrowser('the main job', (harness) => {
  test('the demo opens planned: line, relief, ribbon and ledger, and nothing asks another host', async () => {
    const open = await harness.open();
    const { page } = open;
    await settled(page);
    expect((await ledgerModes(page)).length).toBeGreaterThan(3);
    expect(await page.locator('.ribbon svg path').count()).toBeGreaterThan(5);
    await page.waitForTimeout(3000);
    const map = pixels(await page.locator('.maplibregl-canvas').screenshot());
    expect(colourCount(map)).toBeGreaterThan(500);
    expectQuiet(open);
    await open.close();
  });

  test('a track dropped anywhere is planned, and undo brings the old line back', async () => {
    const open = await harness.open();
    const { page } = open;
    await settled(page);
    const before = await page.locator('.ledger').innerText();
    await dropFiles(page, [resolve(samples, 'ombry-headwall.gpx')]);
    // The demo has this line among its alternatives.
    await page.getByRole('button', { name: /^Plan it/ }).click();
    await page.waitForFunction(
      (old) => (document.querySelector('.ledger') as HTMLElement)?.innerText !== old,
      before,
    );
    await settled(page);
    await page.keyboard.press('Control+z');
    await page.waitForFunction(
      (old) => (document.querySelector('.ledger') as HTMLElement)?.innerText === old,
      before,
    );
    expectQuiet(open);
    await open.close();
  });

  test('a line drawn click by click is planned, with its running length shown meanwhile', async () => {
    const open = await harness.open();
    const { page } = open;
    await settled(page);
    await page.getByRole('button', { name: 'Draw line' }).click();
    await page.getByText('Click the first point.').first().waitFor();
    const places = await Promise.all([
      mapPoint(page, 0.45, 0.75),
      mapPoint(page, 0.55, 0.6),
      mapPoint(page, 0.5, 0.4),
    ]);
    for (const { x, y } of places) {
      await page.mouse.move(x, y);
      await page.mouse.click(x, y);
      await page.waitForTimeout(350);
    }
    expect(await page.locator('.hint b').innerText()).toMatch(/\d.*m/);
    await page.mouse.click(places[2]?.x ?? 0, places[2]?.y ?? 0);
    await page.locator('.hint').waitFor({ state: 'detached' });
    await settled(page);
    expect((await ledgerModes(page)).length).toBeGreaterThan(0);
    await page.getByRole('button', { name: 'Undo draw line' }).waitFor();
    expectQuiet(open);
    await open.close();
  });

  test('a crossing marked on the line becomes a belayed crossing', async () => {
    const open = await harness.open();
    const { page } = open;
    await settled(page);
    const crossings = async () =>
      (await ledgerModes(page)).filter((row) => row.includes('belayed crossing')).length;
    const before = await crossings();
    // The whole line stands in view: its ends are known from the ribbon, its middle from the map.
    const at = await page.evaluate(() => {
      const canvas = document.querySelector('.maplibregl-canvas') as HTMLCanvasElement;
      const { left, top } = canvas.getBoundingClientRect();
      return { left, top };
    });
    await page
      .locator('.ribbon svg')
      .first()
      .hover({ position: { x: 120, y: 80 } });
    const cursor = await page.locator('.map .cursor').boundingBox();
    if (!cursor) throw new Error('The ribbon moved no cursor on the map');
    expect(cursor.x).toBeGreaterThan(at.left);
    await page.getByRole('button', { name: 'Mark', exact: true }).click();
    await page.getByRole('button', { name: 'crevasse crossing' }).click();
    await page.mouse.click(cursor.x + cursor.width / 2, cursor.y + cursor.height / 2);
    await settled(page);
    await onPage(page, 'Ledger');
    expect(await crossings()).toBeGreaterThan(before);
    expectQuiet(open);
    await open.close();
  });

  test('harder snow changes modes at once; it is there again after a reload, and can still be undone', async () => {
    const open = await harness.open();
    const { page } = open;
    await settled(page);
    const before = await ledgerModes(page);
    await onPage(page, 'Snow');
    await page.getByRole('radio', { name: /^knife/ }).check();
    await settled(page);
    await onPage(page, 'Ledger');
    expect(await ledgerModes(page)).not.toEqual(before);
    await page.reload();
    await page.locator('.ledger table').first().waitFor();
    await onPage(page, 'Snow');
    expect(await page.getByRole('radio', { name: /^knife/ }).isChecked()).toBe(true);
    await page.getByRole('button', { name: 'Undo change snow' }).click();
    expect(await page.getByRole('radio', { name: /^knife/ }).isChecked()).toBe(false);
    expectQuiet(open);
    await open.close();
  });
});
