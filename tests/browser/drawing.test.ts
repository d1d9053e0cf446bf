import { resolve } from 'node:path';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import {
  dropFiles,
  ledgerModes,
  loseGraphics,
  mapPoint,
  onPage,
  said,
  settled,
  undoButton,
} from './gestures';
import { expectQuiet, inBrowser } from './harness';

const samples = resolve(import.meta.dirname, '../../sample-tracks');

/** A press of the mouse, apart in time from the one before. */
async function press(page: Page, across: number, down: number): Promise<void> {
  const { x, y } = await mapPoint(page, across, down);
  await page.mouse.move(x, y);
  await page.mouse.click(x, y);
  await page.waitForTimeout(330);
}

const takeUp = async (page: Page, tool: string, hint: string) => {
  await page.getByRole('button', { name: tool, exact: true }).click();
  await page.locator('.hint').getByText(hint).waitFor();
};
const runningM = async (page: Page) =>
  (await page.locator('.hint b').first().innerText()).replace(/\s/g, ' ');
const pointCount = async (page: Page) => {
  await onPage(page, 'Line');
  const words = await page.locator('.line p').first().innerText();
  return Number(/(\d+) points/.exec(words)?.[1] ?? NaN);
};

inBrowser('drawing', (harness) => {
  test('D1, D7, D10, D12, D15, D17 a draft: pressed twice, ended early, through a lost picture and an opened file', async () => {
    const open = await harness.open({ width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    const before = await ledgerModes(page);

    // A double click is one point; one point is no line, and is kept.
    await takeUp(page, 'Draw line', 'Click the first point.');
    const first = await mapPoint(page, 0.4, 0.8);
    await page.mouse.dblclick(first.x, first.y);
    await page.waitForTimeout(350);
    await page.keyboard.press('Escape');
    await page.locator('.hint').waitFor({ state: 'detached' });
    expect(await said(page)).toContain('One point is no line yet');
    expect(await ledgerModes(page)).toEqual(before);
    expect(await undoButton(page).isDisabled()).toBe(true);

    // Drawing goes on from it; the rubber band is measured as it is drawn out.
    await takeUp(page, 'Draw line', 'Next point');
    const near = await mapPoint(page, 0.42, 0.75);
    await page.mouse.move(near.x, near.y);
    const short = await runningM(page);
    await press(page, 0.5, 0.6);
    expect(await runningM(page)).not.toBe(short);

    // The picture is lost and comes back: the draft is still in the hand.
    await loseGraphics(page, 300);
    await page.getByText('being restored').waitFor();
    await page.getByText('being restored').waitFor({ state: 'detached' });
    // A file comes in between: the draft is still there, and becomes a line when it is ended.
    await dropFiles(page, [resolve(samples, 'ombry-headwall.gpx')]);
    await page.getByRole('button', { name: /^Plan it/ }).click();
    await page.getByRole('button', { name: /^Undo open/ }).waitFor();
    await settled(page);
    await page.locator('.hint').getByText('Next point').waitFor();
    await press(page, 0.55, 0.5);
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Undo draw line' }).waitFor();
    expect(await pointCount(page)).toBe(3);

    // Back to the beginning, where undo says why it does nothing; a new edit takes the place of what was undone.
    await page.getByRole('button', { name: 'Undo draw line' }).click();
    await page.getByRole('button', { name: /^Undo open/ }).click();
    await settled(page);
    expect(await undoButton(page).isDisabled()).toBe(true);
    expect(await undoButton(page).getAttribute('title')).toBe('Nothing to undo');
    await page.getByRole('button', { name: 'Reverse' }).click();
    expect(await page.getByRole('button', { name: 'Redo', exact: true }).isDisabled()).toBe(true);
    expectQuiet(open);
    await open.close();
  });

  test('D9, D11, D13 extend from both ends; what nobody chose is neither dragged nor deleted; undo outruns the planner', async () => {
    const open = await harness.open({ width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    const count = await pointCount(page);
    await takeUp(page, 'Extend', 'Next point');
    await press(page, 0.8, 0.2);
    await page.getByRole('button', { name: 'Finish' }).click();
    await page.getByRole('button', { name: 'Undo extend line from its end' }).waitFor();
    expect(await pointCount(page)).toBe(count + 1);
    await takeUp(page, 'Extend', 'Next point');
    await page.getByRole('button', { name: 'From the start instead' }).click();
    await page.locator('.hint').getByText('Next point').waitFor();
    await press(page, 0.45, 0.92);
    await page.getByRole('button', { name: 'Finish' }).click();
    await page.getByRole('button', { name: 'Undo extend line from its start' }).waitFor();
    expect(await pointCount(page)).toBe(count + 2);
    await settled(page);

    // Without a tool a drag moves the map, whatever lies under it.
    await page.getByRole('slider', { name: 'Place along the line' }).press('End');
    const end = await page.locator('.map .cursor').boundingBox();
    if (!end) throw new Error('No cursor on the map');
    await page.mouse.move(end.x + 9, end.y + 9);
    await page.mouse.down();
    await page.mouse.move(end.x - 30, end.y + 60, { steps: 4 });
    await page.mouse.up();
    await page.getByRole('button', { name: 'Undo extend line from its start' }).waitFor();

    await page.getByRole('button', { name: 'Edit points' }).click();
    await page.getByText('Drag a point').first().waitFor();
    await page.locator('.maplibregl-canvas').focus();
    await page.keyboard.press('Delete');
    expect(await pointCount(page)).toBe(count + 2);
    await page.keyboard.press('Escape');

    // An edit and its undo while the planner is still at the edit: what stands is the state before.
    await onPage(page, 'Ledger');
    const before = await ledgerModes(page);
    await onPage(page, 'Line');
    await page.getByRole('button', { name: 'Reverse' }).click();
    await page.getByRole('button', { name: 'Undo reverse line' }).click();
    await settled(page);
    await onPage(page, 'Ledger');
    expect(await ledgerModes(page)).toEqual(before);
    expectQuiet(open);
    await open.close();
  });

  test('D2, D3, D4, D5, D16 typed places: a crossing of itself, one spot twice, outside the raster, at the pole, in any order', async () => {
    const open = await harness.open({ width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    const count = await pointCount(page);
    await page.getByText('Points, one by one').click();
    const fresh = page.getByLabel('Place of a new point at the end');
    const add = async (text: string) => {
      await fresh.fill(text);
      await fresh.press('Enter');
    };
    await add('89 S 21 W');
    await page.getByRole('alert').filter({ hasText: 'No map beyond' }).waitFor();
    expect(await pointCount(page)).toBe(count);

    // The same place twice, the second time as a grid reference; it stays two until merged.
    await add('48.48 S 21.38 W');
    await add('48°28\'48.0"S 21°22\'48.0"W');
    expect(await pointCount(page)).toBe(count + 2);
    await page.getByRole('button', { name: 'Merge points on one spot' }).click();
    await page.getByRole('button', { name: 'Undo merge points on one spot' }).waitFor();
    expect(await pointCount(page)).toBe(count + 1);

    // Longitude first is a place on the other side of the world: asked, since the line is here.
    await add('-21.37, -48.49');
    await page.getByText('Which place is meant?').waitFor();
    await page.getByRole('button', { name: /longitude first/ }).click();
    await page.getByRole('button', { name: 'Undo add point' }).waitFor();
    expect(await pointCount(page)).toBe(count + 2);
    await add('-48.481, -21.39');
    expect(await pointCount(page)).toBe(count + 3);
    await page.getByText('The line crosses itself').waitFor();

    // Far outside the raster: allowed, and without ground data.
    await add('48.60 S 21.38 W');
    await settled(page);
    await onPage(page, 'Ledger');
    expect((await ledgerModes(page)).at(-1)).toContain('no ground data');
    expect(await page.locator('.totals .ground').first().innerText()).toContain('without ground data');
    expectQuiet(open);
    await open.close();
  });
});
