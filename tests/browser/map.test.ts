import { test, expect } from 'vitest';
import { mapPoint, said, settled } from './gestures';
import { expectQuiet, inBrowser } from './harness';
import { pictureTiles } from './picture-tiles';
import { colourCount, pixels, shareOf } from './pixels';

inBrowser('the map', (harness) => {
  test('says where the pointer is in every notation, copies it with one key, and goes to a place that is typed', async () => {
    const open = await harness.open({ width: 1280, height: 800 });
    const { page, context } = open;
    await settled(page);
    await context.grantPermissions(['clipboard-read', 'clipboard-write']);
    const { x, y } = await mapPoint(page, 0.5, 0.5);
    await page.mouse.move(x, y);
    const place = page.locator('.place');
    const notations = [
      /^-48\.\d{5}, -21\.\d{5} · \d+.m$/,
      /^48°\d\d′\d\d\.\d″ S 21°\d\d′\d\d\.\d″ W/,
      /^27F \d{6} E 46\d{5} N/,
      /^27F ?[A-Z]{2} ?\d{5} ?\d{5}/,
    ];
    for (const notation of notations) {
      await expect.poll(() => place.innerText()).toMatch(notation);
      await page.locator('.maplibregl-canvas').focus();
      await page.keyboard.press('c');
      await expect.poll(() => said(page)).toContain('Copied');
      const copied = await page.evaluate(() => navigator.clipboard.readText());
      expect(await place.innerText()).toContain(copied);
      await page.getByRole('button', { name: /^Notation of places/ }).click();
      await page.mouse.move(x, y);
    }
    await page.getByRole('button', { name: 'Go to a place by coordinates' }).click();
    await page.getByLabel('Place', { exact: true }).fill('48°28′48.0″ S 21°22′48.0″ W');
    await page.keyboard.press('Enter');
    // The cross-hair stands in the middle of the map, where the place now is.
    await page.locator('.maplibregl-canvas').focus();
    await page.keyboard.press('c');
    await expect.poll(() => page.evaluate(() => navigator.clipboard.readText())).toBe('-48.48000, -21.38000');

    // North and scale.
    const bar = page.locator('.scale');
    const far = await bar.innerText();
    await page.getByRole('button', { name: 'Closer' }).first().click();
    await expect.poll(() => bar.innerText()).not.toBe(far);
    const north = page.getByRole('button', { name: 'North up' }).locator('svg');
    await page.locator('.maplibregl-canvas').focus();
    await page.keyboard.press('x');
    await page.keyboard.press('Shift+ArrowRight');
    await expect.poll(() => north.getAttribute('style')).not.toContain('rotate(0deg)');
    await page.getByRole('button', { name: 'North up' }).click();
    await expect.poll(() => north.getAttribute('style')).toMatch(/rotate\(-?0deg\)/);
    expectQuiet(open);
    await open.close();
  });

  test('shows slope tint with its legend, and where a slide from the chosen place would go', async () => {
    const open = await harness.open();
    const { page } = open;
    await settled(page);
    const canvas = page.locator('.maplibregl-canvas');
    const alarm = async () => shareOf(pixels(await canvas.screenshot()), [143, 29, 20]);
    for (const _ of [1, 2]) await page.getByRole('button', { name: 'Closer' }).first().click();
    // On the ramp a slide does not stop by itself; the map goes there. Marks are of the same colour, and stay.
    await page
      .locator('.ledger table')
      .first()
      .locator('tr')
      .filter({ hasText: 'running belay' })
      .last()
      .click();
    await expect.poll(alarm, { timeout: 20_000 }).toBeGreaterThan(0.001);
    await page.waitForTimeout(2000);
    const withSlide = await alarm();
    await page.getByRole('button', { name: 'Close slip card' }).click();
    await expect.poll(alarm, { timeout: 20_000 }).toBeLessThan(0.75 * withSlide);
    await page.getByRole('button', { name: 'Look of the map' }).click();
    await page.getByLabel('Slope tint').check();
    await page.getByRole('img', { name: /Slope tint, from 15 degrees/ }).waitFor();
    // Yellow at 15 to 20 degrees: on the map nothing else is.
    const isYellow = async () => shareOf(pixels(await canvas.screenshot()), [222, 214, 130], 40);
    await expect.poll(isYellow, { timeout: 20_000 }).toBeGreaterThan(0.01);
    expectQuiet(open);
    await open.close();
  });

  test('shows heights aslant', async () => {
    // Small: each of its frames is seconds of work for software graphics.
    const open = await harness.open({ width: 560, height: 360 });
    const { page } = open;
    await settled(page);
    const canvas = page.locator('.maplibregl-canvas');
    await page.getByRole('button', { name: 'Look of the map' }).click();
    await page.getByLabel('Hills in three dimensions').check();
    await page.waitForTimeout(4000);
    expect(colourCount(pixels(await canvas.screenshot({ timeout: 120_000 })))).toBeGreaterThan(500);
    expectQuiet(open);
    await open.close();
  });

  test('takes a base map of the user’s own, by address or from a file, with its credit; a tile that failed is asked for again', async () => {
    const open = await harness.open({ mayAsk: 'https://tiles.invalid/' });
    const { page, context } = open;
    await settled(page);
    const { png, archive } = pictureTiles();
    const asked: string[] = [];
    let isDown = true;
    await context.route('https://tiles.invalid/**', async (route) => {
      asked.push(route.request().url());
      if (isDown) await route.fulfill({ status: 503 });
      else
        await route.fulfill({
          body: png,
          contentType: 'image/png',
          headers: { 'access-control-allow-origin': '*' },
        });
    });
    await page.getByRole('button', { name: 'Look of the map' }).click();
    await page.getByText('Own base map (off)').click();
    await page.getByLabel('Address').fill('https://tiles.invalid/{z}/{x}/{y}.png');
    await page.getByLabel('Its credit').fill('Survey of Nowhere');
    await page.getByRole('button', { name: 'Show', exact: true }).click();
    await page.locator('.credit').getByText('Survey of Nowhere').waitFor();
    await expect.poll(() => asked.length).toBeGreaterThan(0);
    await expect.poll(() => said(page)).toContain('tried again');
    isDown = false;
    const canvas = page.locator('.maplibregl-canvas');
    const pink = async () => shareOf(pixels(await canvas.screenshot()), [255, 0, 255], 90);
    await expect.poll(pink, { timeout: 30_000 }).toBeGreaterThan(0.05);
    await page.getByRole('button', { name: 'Take away' }).click();
    await expect.poll(pink).toBeLessThan(0.01);
    await page.getByLabel('Its credit').fill('');
    await page
      .getByLabel('or a PMTiles file')
      .setInputFiles({ name: 'nowhere.pmtiles', mimeType: 'application/octet-stream', buffer: archive });
    await expect.poll(pink, { timeout: 30_000 }).toBeGreaterThan(0.05);
    // The archive names its makers itself.
    await page.locator('.credit').getByText('Makers of Nowhere').waitFor();
    await open.close();
  });

  test('finds this device beside the line', async () => {
    const open = await harness.open();
    const { page, context } = open;
    await settled(page);
    await context.grantPermissions(['geolocation']);
    await context.setGeolocation({ latitude: -48.4916844, longitude: -21.377349, accuracy: 8 });
    await page.getByRole('button', { name: 'Where am I' }).click();
    await expect.poll(() => said(page)).toMatch(/You are within 8.m of the ring, beside \d+.m of the line/);
    expectQuiet(open);
    await open.close();
  });
});
