import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { settled } from './gestures';
import { expectQuiet, inBrowser } from './harness';
import { colourCount, pixels } from './pixels';

inBrowser('the picture of the profile', (harness) => {
  test('is a PNG with something drawn on it', async () => {
    const open = await harness.open({ map: false });
    const { page } = open;
    await settled(page);
    await page.locator('summary', { hasText: 'Save' }).click();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: /^Picture of the profile/ }).click(),
    ]);
    expect(download.suggestedFilename()).toMatch(/-profile\.png$/);
    const png = readFileSync(await download.path());
    // PNG, W3C Recommendation, 5.2 and 11.2.2: signature; width and height at bytes 16 and 20.
    expect([...png.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
    expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([1400, 536]);
    expect(colourCount(pixels(png))).toBeGreaterThan(8);
    expectQuiet(open);
    await open.close();
  });
});
