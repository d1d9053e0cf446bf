import { expect, test } from 'vitest';
import { ledgerModes, settled } from './gestures';
import { inBrowser } from './harness';
import { colourCount, pixels } from './pixels';

inBrowser('recovery', (harness) => {
  test('a lost graphics context is restored and the line is drawn again', async () => {
    const open = await harness.open();
    const { page } = open;
    await settled(page);
    await page.waitForTimeout(2000);
    const colours = async () => colourCount(pixels(await page.locator('.maplibregl-canvas').screenshot()));
    const before = await colours();
    await page.evaluate(() => {
      const canvas = document.querySelector('.maplibregl-canvas') as HTMLCanvasElement;
      const context = canvas.getContext('webgl2')?.getExtension('WEBGL_lose_context');
      context?.loseContext();
      setTimeout(() => context?.restoreContext(), 300);
    });
    await page.getByText('being restored').waitFor();
    await page.getByText('being restored').waitFor({ state: 'detached' });
    await page.waitForTimeout(3000);
    expect(await colours()).toBeGreaterThan(before / 2);
    await open.close();
  });

  test('killed workers are started anew, with the rasters they held, and the next change is planned', async () => {
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
    await page.getByRole('tab', { name: 'Snow' }).click();
    await page.getByRole('radio', { name: /^knife/ }).check();
    await page.getByRole('tab', { name: 'Ledger' }).click();
    await settled(page);
    await expect.poll(() => ledgerModes(page)).not.toEqual(before);
    expect((await ledgerModes(page)).join()).not.toContain('no ground data');
    await open.close();
  });
});
