import { expect, test } from 'vitest';
import { ledgerModes, loseGraphics, mapPoint, onPage, settled } from './gestures';
import { expectQuiet, inBrowser } from './harness';
import { colourCount, pixels } from './pixels';

inBrowser('recovery', (harness) => {
  test('E2 a lost graphics context is restored and the line is drawn again', async () => {
    const open = await harness.open();
    const { page } = open;
    await settled(page);
    await page.waitForTimeout(2000);
    const colours = async () => colourCount(pixels(await page.locator('.maplibregl-canvas').screenshot()));
    const before = await colours();
    // Longer than a moment: the line is drawn in ink meanwhile.
    await loseGraphics(page, 8000);
    await page.getByText('being restored').waitFor();
    await page.getByRole('img', { name: 'The line from above, modes by stroke' }).waitFor();
    await page.getByText('being restored').waitFor({ state: 'detached' });
    await page
      .getByRole('img', { name: 'The line from above, modes by stroke' })
      .waitFor({ state: 'detached' });
    await expect.poll(colours, { timeout: 20_000 }).toBeGreaterThan(before / 2);
    await open.close();
  });

  test('E13 killed workers are started anew, with the rasters they held, and the next change is planned', async () => {
    const open = await harness.open();
    const { page, context } = open;
    await settled(page);
    const before = await ledgerModes(page);
    const session = await context.newCDPSession(page);
    const gone = new Set<string>();
    session.on('Target.attachedToTarget', ({ sessionId, targetInfo }) => {
      if (!/(ground|slip|plan)[.]worker/.test(targetInfo.url)) return;
      gone.add(targetInfo.url);
      void session.send(
        'Target.sendMessageToTarget' as never,
        {
          sessionId,
          message: JSON.stringify({
            id: 1,
            method: 'Runtime.evaluate',
            params: { expression: 'self.close()' },
          }),
        } as never,
      );
    });
    await session.send('Target.setAutoAttach', {
      autoAttach: true,
      waitForDebuggerOnStart: false,
      flatten: false,
    });
    await expect.poll(() => gone.size).toBe(3);
    await session.send('Target.setAutoAttach', {
      autoAttach: false,
      waitForDebuggerOnStart: false,
      flatten: false,
    });
    await page.waitForTimeout(500);
    await onPage(page, 'Snow');
    await page.getByRole('radio', { name: /^knife/ }).check();
    await onPage(page, 'Ledger');
    await settled(page);
    await expect.poll(() => ledgerModes(page)).not.toEqual(before);
    expect((await ledgerModes(page)).join()).not.toContain('no ground data');
    await open.close();
  });

  test('E1 without graphics the line is drawn in ink, and all else works', async () => {
    const open = await harness.open({
      width: 1280,
      height: 800,
      prepare: (context) =>
        context.addInitScript(() => {
          Object.defineProperty(HTMLCanvasElement.prototype, 'getContext', { value: () => null });
        }),
    });
    const { page } = open;
    await settled(page);
    await page.getByText('This device cannot draw the map').waitFor();
    const drawing = page.getByRole('img', { name: 'The line from above, modes by stroke' });
    expect(await drawing.locator('path').count()).toBeGreaterThan(10);
    const before = await ledgerModes(page);
    await onPage(page, 'Snow');
    await page.getByRole('radio', { name: /^knife/ }).check();
    await settled(page);
    await onPage(page, 'Ledger');
    expect(await ledgerModes(page)).not.toEqual(before);
    await page.getByRole('slider', { name: 'Place along the line' }).press('End');
    expectQuiet(open);
    await open.close();
  });

  test('E14 long work shows itself with a way to stop it, and stopped it leaves everything as it was', async () => {
    const open = await harness.open({ mayAsk: 'https://rasters.invalid/' });
    const { page, context } = open;
    await settled(page);
    const before = await ledgerModes(page);
    // A server that never answers.
    await context.route('https://rasters.invalid/**', () => undefined);
    await onPage(page, 'Ground');
    await page.getByLabel('A GeoTIFF on a server').fill('https://rasters.invalid/slow.tif');
    await page.getByRole('button', { name: 'Fetch' }).click();
    const work = page.getByRole('status').filter({ has: page.getByRole('button', { name: 'Cancel' }) });
    await work.waitFor();
    // The map is still at hand.
    const { x, y } = await mapPoint(page, 0.5, 0.5);
    await page.mouse.move(x, y);
    await work.getByRole('button', { name: 'Cancel' }).click();
    await work.waitFor({ state: 'detached' });
    await onPage(page, 'Ledger');
    expect(await ledgerModes(page)).toEqual(before);
    await open.close();
  });
});
