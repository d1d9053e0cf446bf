import { resolve } from 'node:path';
import { expect, test } from 'vitest';
import { dropFiles, onPage, settled, stepButton } from './gestures';
import { expectQuiet, inBrowser } from './harness';

const samples = resolve(import.meta.dirname, '../../sample-tracks');

inBrowser('the parts of the work', (harness) => {
  test('a step says how it stands, also when it was changed and when the change is undone', async () => {
    const open = await harness.open({ map: false, width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    await onPage(page, 'Snow');
    expect(await stepButton(page, 'Snow').innerText()).toContain('pencil, dry');
    await page.getByRole('radio', { name: /^knife/ }).check();
    await expect.poll(() => stepButton(page, 'Snow').innerText()).toContain('knife, dry');
    await page.keyboard.press('Control+z');
    await expect.poll(() => stepButton(page, 'Snow').innerText()).toContain('pencil, dry');
    // What was open is open when one comes back.
    await onPage(page, 'Ledger');
    await page.getByRole('tab', { name: 'Prepare' }).click();
    expect(await stepButton(page, 'Snow').getAttribute('aria-expanded')).toBe('true');
    expectQuiet(open);
    await open.close();
  });

  test('the lines of the project stand side by side, the one in hand as in the ledger', async () => {
    const open = await harness.open({ map: false, width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    const time = await page.locator('.totals h2').first().innerText();
    await onPage(page, 'What if');
    await page.getByRole('button', { name: 'Plan them all' }).click();
    const table = page.getByRole('region', { name: 'Lines side by side, table' });
    await table.waitFor();
    const [own = '', other = ''] = await table.locator('tr.first td').allInnerTexts();
    expect(time).toContain(own);
    await table.getByRole('button', { name: /^Use / }).click();
    await settled(page);
    await onPage(page, 'Ledger');
    // Planned as the line in hand it comes to the same.
    await expect.poll(() => page.locator('.totals h2').first().innerText()).toContain(other);
    expectQuiet(open);
    await open.close();
  });

  test("a recorded day is laid over the plan; the team's own pace is taken over and kept", async () => {
    const open = await harness.open({ map: false, width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    const time = await page.locator('.totals h2').first().innerText();
    const track = resolve(samples, 'ombry-recorded-day.gpx');
    await dropFiles(page, [track]);
    await page.getByRole('button', { name: 'Do not open' }).click();
    await settled(page);
    expect(await page.locator('.totals h2').first().innerText()).toBe(time);
    expect(await page.getByRole('button', { name: 'Undo', exact: true }).isDisabled()).toBe(true);
    await dropFiles(page, [track]);
    await page.getByRole('button', { name: 'The day as it was' }).click();
    const rows = page.getByRole('region', { name: 'Planned and taken, table' }).locator('tbody tr');
    await rows.first().waitFor();
    expect(await page.getByRole('tab', { name: 'On the way' }).getAttribute('aria-selected')).toBe('true');
    await page.getByRole('button', { name: 'Take these over as our own pace' }).click();
    await page.getByRole('button', { name: "Undo take over the team's own pace" }).waitFor();
    await settled(page);
    await page.reload();
    await settled(page);
    await onPage(page, 'Team');
    const factor = Number(await page.getByLabel('Our walking, times the rule').inputValue());
    expect(factor).toBeGreaterThan(0.5);
    expect(factor).not.toBe(1);
    expectQuiet(open);
    await open.close();
  });
});
