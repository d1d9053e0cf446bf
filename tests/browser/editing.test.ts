import { expect, test } from 'vitest';
import { ledgerModes, onPage, settled } from './gestures';
import { expectQuiet, inBrowser } from './harness';

inBrowser('editing the line', (harness) => {
  test('a point is dragged on the map, another put in between; each is undone by its name', async () => {
    const open = await harness.open({ width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    const before = await ledgerModes(page);
    await page.getByRole('button', { name: 'Edit points' }).click();
    await page.getByText('Drag a point').first().waitFor();
    // The end of the line, shown on the map by the ribbon's cursor.
    await page.getByRole('slider', { name: 'Place along the line' }).press('End');
    const cursor = await page.locator('.map .cursor').boundingBox();
    if (!cursor) throw new Error('No cursor on the map');
    const at = { x: cursor.x + cursor.width / 2, y: cursor.y + cursor.height / 2 };
    await page.mouse.move(at.x, at.y);
    await page.mouse.down();
    await page.mouse.move(at.x + 20, at.y + 10, { steps: 4 });
    await page.mouse.move(at.x + 40, at.y + 20, { steps: 4 });
    await page.mouse.up();
    await page.getByRole('button', { name: /^Undo move point/ }).waitFor();
    await settled(page);
    expect(await ledgerModes(page)).not.toEqual(before);
    await page.getByRole('button', { name: /^Undo move point/ }).click();
    await settled(page);
    expect(await ledgerModes(page)).toEqual(before);
    expectQuiet(open);
    await open.close();
  });

  test('a point is chosen and moved by keys, and by typed coordinates', async () => {
    const open = await harness.open({ width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    await page.getByRole('button', { name: 'Edit points' }).click();
    await page.getByText('Drag a point').first().waitFor();
    await page.locator('.maplibregl-canvas').focus();
    await page.keyboard.press(']');
    await page
      .getByText(/^Point 1 of/)
      .first()
      .waitFor();
    await page.keyboard.press('ArrowLeft');
    await page.getByRole('button', { name: 'Undo move point 1' }).waitFor();
    await onPage(page, 'Line');
    await page.getByText('Points, one by one').click();
    await page.getByLabel('Place of point 2', { exact: true }).fill('48°29\'48.2"S 21°22\'34.4"W');
    await page.getByLabel('Place of point 2', { exact: true }).press('Enter');
    await page.getByRole('button', { name: 'Undo move point 2' }).waitFor();
    await page.getByLabel('Place of point 3', { exact: true }).fill('nowhere');
    await page.getByLabel('Place of point 3', { exact: true }).press('Enter');
    await page.getByRole('alert').filter({ hasText: 'Not read as a place' }).waitFor();
    expectQuiet(open);
    await open.close();
  });

  test('reverse, simplify and an alternative are one press each', async () => {
    const open = await harness.open({ map: false, width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    await onPage(page, 'Line');
    await page.getByRole('button', { name: 'Reverse' }).click();
    await page.getByRole('button', { name: 'Undo reverse line' }).waitFor();
    await page.getByRole('button', { name: /^Leave out/ }).click();
    await page.getByRole('button', { name: /^Undo simplify/ }).waitFor();
    await page.getByRole('button', { name: 'Use', exact: true }).first().click();
    await page.getByRole('button', { name: /^Undo change to/ }).waitFor();
    await settled(page);
    expect((await ledgerModesOf(page)).length).toBeGreaterThan(0);
    expectQuiet(open);
    await open.close();
  });
});

async function ledgerModesOf(page: Parameters<typeof ledgerModes>[0]): Promise<string[]> {
  await onPage(page, 'Ledger');
  return ledgerModes(page);
}
