import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { atRest, onPage, settled } from './gestures';
import { expectQuiet, inBrowser } from './harness';

const plot = (page: Page) => page.getByRole('slider', { name: 'Place along the line' });
const placeM = async (page: Page) => Number(await plot(page).getAttribute('aria-valuenow'));
/** Labels under the lanes, as they are read. */
const alongLabels = (page: Page) =>
  page
    .locator('.ribbon text.tick[text-anchor="middle"]')
    .evaluateAll((all) => all.map((one) => one.textContent));

inBrowser('ribbon, ledger and forms', (harness) => {
  test('the team that is watched on its way goes along the ribbon, and is gone with the player', async () => {
    const open = await harness.open({ map: false });
    const { page } = open;
    await settled(page);
    const segments = page.locator('.ledger').getByRole('region', { name: 'Segments', exact: true });
    await segments
      .locator('tbody tr')
      .filter({ hasText: 'running belay' })
      .last()
      .getByRole('button')
      .click();
    await page.getByText('Watch the team here').click();
    const dots = page.locator('.ribbon circle.team');
    await expect.poll(() => dots.count()).toBe(3);
    const places = () => dots.evaluateAll((all) => all.map((dot) => Number(dot.getAttribute('cx'))));
    const before = await places();
    await page.getByLabel('Moment').fill('2400');
    await expect.poll(async () => ((await places())[0] ?? 0) > (before[0] ?? 0)).toBe(true);
    const [lead, , last] = (await places()) as [number, number, number];
    expect(lead).toBeGreaterThanOrEqual(last);
    // The plan is made again when other teams have been tried: whoever watches goes on.
    await atRest(page);
    expect(await page.getByLabel('Moment').inputValue()).toBe('2400');
    await page.getByText('Watch the team here').click();
    await page.getByRole('button', { name: 'Close slip card' }).click();
    await expect.poll(() => dots.count()).toBe(0);
    expectQuiet(open);
    await open.close();
  });

  test('the ribbon is walked, zoomed, marked and read by keyboard and buttons', async () => {
    const open = await harness.open({ map: false });
    const { page } = open;
    await settled(page);
    await plot(page).focus();
    await page.keyboard.press('Home');
    expect(await placeM(page)).toBe(0);
    await page.keyboard.press('ArrowRight');
    const stepM = await placeM(page);
    expect(stepM).toBeGreaterThan(0);
    await page.keyboard.press('Shift+ArrowRight');
    expect(await placeM(page)).toBeGreaterThan(stepM);
    expect(await plot(page).getAttribute('aria-valuetext')).toMatch(/elevation .* design slope .*/);

    const whole = await alongLabels(page);
    await page.keyboard.press('+');
    expect(await alongLabels(page)).not.toEqual(whole);
    await page.locator('.ribbon').getByRole('button', { name: 'Whole line' }).click();
    expect(await alongLabels(page)).toEqual(whole);

    await page.locator('.ribbon select').first().selectOption('time');
    expect((await alongLabels(page))[0]).toMatch(/^\d\d:\d\d$/);
    await page.locator('.ribbon select').first().selectOption('distance');
    const slopeLine = await page.locator('.ribbon path.slope').getAttribute('d');
    await page.getByLabel('Below').selectOption('unheld');
    expect(await page.locator('.ribbon path.slope').getAttribute('d')).not.toBe(slopeLine);
    await page.getByLabel('Below').selectOption('slope');

    // Page Down is the next segment's beginning; Enter opens its card.
    await plot(page).focus();
    await page.keyboard.press('Home');
    await page.keyboard.press('PageDown');
    await page.keyboard.press('Enter');
    await page.getByRole('region', { name: 'If someone slips here' }).waitFor();
    expect(await page.locator('.slip-card .where').innerText()).toContain('Segment 2');

    // A stretch without dragging: from here, further on, to here.
    await page.getByRole('button', { name: 'Stretch from here' }).click();
    await plot(page).focus();
    await page.keyboard.press('Shift+ArrowRight');
    await page.getByRole('button', { name: 'Stretch to here' }).click();
    await page.getByText('On this stretch I know better').waitFor();
    expectQuiet(open);
    await open.close();
  });

  test('a number is read with a comma, said back, and refused where it can be read two ways', async () => {
    const open = await harness.open({ map: false });
    const { page } = open;
    await settled(page);
    await onPage(page, 'Team');
    const rope = page.getByLabel('Rope length');
    await rope.fill('52,5');
    await page.getByText('= 52.5 m', { exact: true }).waitFor();
    await rope.fill('1,234');
    await rope.blur();
    await page.getByText('1,234 can be read two ways', { exact: false }).waitFor();
    expect(await rope.getAttribute('aria-invalid')).toBe('true');
    // What is wrong is never taken over: the last good value stays in the plan.
    await rope.fill('500');
    await rope.blur();
    await page.getByText('between 20 and 120', { exact: false }).waitFor();
    await onPage(page, 'Ledger');
    await onPage(page, 'Team');
    expect(await page.getByLabel('Rope length').inputValue()).toBe('52.5');
    expectQuiet(open);
    await open.close();
  });

  test('the ledger shows one mode alone, and a warning leads to its place', async () => {
    const open = await harness.open({ map: false });
    const { page } = open;
    await settled(page);
    const wayUp = page.getByRole('region', { name: 'Segments', exact: true });
    const rows = wayUp.locator('tbody tr');
    const all = await rows.count();
    await wayUp.locator('select').selectOption('roped');
    const roped = await rows.count();
    expect(roped).toBeGreaterThan(0);
    expect(roped).toBeLessThan(all);
    const link = page.getByRole('button', { name: /^show / }).first();
    await link.click();
    expect(await placeM(page)).toBeGreaterThanOrEqual(0);
    expect(await plot(page).getAttribute('aria-valuetext')).not.toBe('no place chosen');
    expectQuiet(open);
    await open.close();
  });
});
