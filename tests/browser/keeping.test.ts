import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { dropTexts, ledgerModes, onPage, settled } from './gestures';
import { expectQuiet, inBrowser } from './harness';

const title = (page: Page) => page.locator('header .name');
const saved = (page: Page) => page.locator('header .saved').filter({ hasText: 'Saved on this device' });
const demo = readFileSync(resolve(import.meta.dirname, '../../public/demo/ombry.firnward.json'), 'utf8');

async function rename(page: Page, name: string): Promise<void> {
  await onPage(page, 'Line');
  await page.getByLabel('Name', { exact: true }).fill(name);
  await page.getByLabel('Name', { exact: true }).press('Enter');
  await title(page).filter({ hasText: name }).waitFor();
  await saved(page).waitFor({ state: 'attached' });
}

inBrowser('keeping projects', (harness) => {
  test('several stand side by side: a new one, a file, a copy; one is deleted and taken back', async () => {
    const open = await harness.open({ map: false, width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    await rename(page, 'Mine');
    await onPage(page, 'Projects');
    await page.getByRole('button', { name: 'New project' }).click();
    await title(page).filter({ hasText: 'New project' }).waitFor();
    const transfer = await page.evaluateHandle((text) => {
      const made = new DataTransfer();
      made.items.add(new File([text.replace('"Mount Ombry', '"From a file')], 'other.firnward.json'));
      return made;
    }, demo);
    await page.dispatchEvent('body', 'drop', { dataTransfer: transfer });
    await title(page).filter({ hasText: 'From a file' }).waitFor();
    await onPage(page, 'Ledger');
    await onPage(page, 'Projects');
    await page.getByRole('button', { name: 'Duplicate Mine' }).click();
    await page.getByRole('button', { name: 'Delete New project' }).click();
    await page.getByRole('button', { name: 'Take New project back' }).click();
    await page.getByRole('button', { name: 'Open New project' }).waitFor();
    await page.getByRole('button', { name: 'Rename Mine, copy' }).click();
    const name = page.getByRole('textbox', { name: 'Name', exact: true });
    await name.fill('Yours');
    await name.press('Enter');
    await page.getByRole('button', { name: 'Open Yours' }).click();
    await title(page).filter({ hasText: 'Yours' }).waitFor();
    await page.reload();
    await page.locator('.ledger table').first().waitFor();
    expect(await title(page).innerText()).toBe('Yours');
    expect((await ledgerModes(page)).join()).toContain('roped travel');
    expectQuiet(open);
    await open.close();
  });

  test('an earlier state is gone back to, which can be undone', async () => {
    const open = await harness.open({ map: false, width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    await rename(page, 'First');
    await onPage(page, 'Team');
    await page
      .getByLabel(/pickets/i)
      .first()
      .fill('3');
    await page
      .getByLabel(/pickets/i)
      .first()
      .press('Enter');
    await rename(page, 'Second');
    await onPage(page, 'Projects');
    await page.getByText('Go back to how this project was').click();
    await page.getByRole('button', { name: 'Go back to after rename' }).last().click();
    await title(page).filter({ hasText: 'First' }).waitFor();
    await page.getByRole('button', { name: /^Undo go back/ }).click();
    await title(page).filter({ hasText: 'Second' }).waitFor();
    await open.close();
  });

  test('E7 P16 a second tab is told; where both edited, the guide chooses and neither is lost', async () => {
    const open = await harness.open({ map: false });
    const { page, context } = open;
    await settled(page);
    await rename(page, 'Shared');
    const other = await context.newPage();
    await other.goto(harness.origin);
    await other.getByText('This project is open in another tab.').waitFor();
    await other.locator('.ledger table').first().waitFor();
    await onPage(other, 'Line');
    await other.getByLabel('Name', { exact: true }).fill('In the other');
    await other.getByLabel('Name', { exact: true }).press('Enter');
    await other.getByText('What you changed here is not kept yet.').waitFor();
    await rename(page, 'In the first');
    await other.getByRole('button', { name: 'Work on it here' }).click();
    await other.getByRole('button', { name: 'As it is here' }).click();
    await saved(other).waitFor({ state: 'attached' });
    await page.getByText('This project is open in another tab.').waitFor();
    await onPage(other, 'Projects');
    await other.getByText('Go back to how this project was').click();
    await other.getByRole('button', { name: 'Go back to as the other tab had it' }).click();
    await title(other).filter({ hasText: 'In the first' }).waitFor({ state: 'attached' });
    await open.close();
  });

  test('E4 without storage the page says so at once, and goes on', async () => {
    const open = await harness.open({
      map: false,
      prepare: (context) =>
        context.addInitScript(() => {
          IDBFactory.prototype.open = () => {
            throw new DOMException('denied', 'SecurityError');
          };
        }),
    });
    const { page } = open;
    await settled(page);
    await page.getByText('Not saved: the browser gives no storage here').waitFor();
    await onPage(page, 'Snow');
    await page.getByRole('radio', { name: /^knife/ }).check();
    await settled(page);
    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save a file' }).click();
    expect((await download).suggestedFilename()).toContain('.firnward.json');
    await open.close();
  });

  test('E3 a full device is told of; with room again everything is saved', async () => {
    const quota = async (context: BrowserContext, on: Page, quotaSize?: number) => {
      const session = await context.newCDPSession(on);
      const size = quotaSize === undefined ? {} : { quotaSize };
      await session.send('Storage.overrideQuotaForOrigin', { origin: harness.origin, ...size });
    };
    const open = await harness.open({
      map: false,
      prepare: async (context) => quota(context, await context.newPage(), 1),
    });
    const { page, context } = open;
    await settled(page);
    await page.getByText("Not saved: the browser's storage is full.").waitFor();
    await onPage(page, 'Line');
    await page.getByLabel('Name', { exact: true }).fill('While full');
    await page.getByLabel('Name', { exact: true }).press('Enter');
    await title(page).filter({ hasText: 'While full' }).waitFor();
    // The rename itself has found the device full by then.
    await page.waitForTimeout(1000);
    for (const other of context.pages()) if (other !== page) await other.close();
    await quota(context, page);
    const again = page.getByRole('button', { name: 'Try again' });
    if (await again.isVisible()) await again.click();
    await saved(page).waitFor({ state: 'attached' });
    await page.reload();
    await page.locator('.ledger table').first().waitFor();
    expect(await title(page).textContent()).toBe('While full');
    await page.getByRole('button', { name: 'Undo rename' }).click();
    await title(page).filter({ hasText: 'Mount Ombry' }).waitFor();
    await open.close();
  });

  test('E6 damaged records: what can be read is there, the rest is said', async () => {
    const open = await harness.open({ map: false });
    const { page } = open;
    await settled(page);
    for (const name of ['One', 'Two', 'Three']) await rename(page, name);
    await page.evaluate(
      () =>
        new Promise<void>((done) => {
          const opening = indexedDB.open('firnward');
          opening.onsuccess = () => {
            const tx = opening.result.transaction('journal', 'readwrite');
            const cursor = tx.objectStore('journal').openCursor(null, 'prev');
            cursor.onsuccess = () => void cursor.result?.update({ ...cursor.result.value, change: 'torn' });
            tx.oncomplete = () => {
              opening.result.close();
              done();
            };
          };
        }),
    );
    await page.reload();
    await page.getByText('1 unfinished or damaged edit left out').first().waitFor();
    await page.locator('.ledger table').first().waitFor();
    expect(await title(page).textContent()).toBe('Two');
    await open.close();
  });
});

inBrowser('what a browser may do to the page', (harness) => {
  test('E5 where the browser promises nothing, ten edits bring the reminder to save a file', async () => {
    const open = await harness.open({ map: false, width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    for (let i = 1; i <= 10; i++) await rename(page, `Edit ${i}`);
    await page.getByText('10 edits since the last file.').waitFor();
    await page.getByRole('button', { name: 'Save a file' }).first().click();
    await page.getByText('10 edits since the last file.').waitFor({ state: 'detached' });
    await page.getByRole('link', { name: 'Save it again' }).waitFor();
    await open.close();
  });

  test('E21 a download that was held back can be had again, its size said', async () => {
    const open = await harness.open({ map: false });
    const { page } = open;
    await settled(page);
    await page.getByText('Save', { exact: true }).click();
    await page.getByRole('button', { name: /^Project/ }).click();
    await page
      .getByText(/Saved .*[.]firnward[.]json, \d/)
      .first()
      .waitFor();
    const download = page.waitForEvent('download');
    await page.getByRole('link', { name: 'Save it again' }).click();
    expect((await download).suggestedFilename()).toContain('.firnward.json');
    await open.close();
  });

  test('E6 projects that were deleted with the browser’s data are said to be gone', async () => {
    const open = await harness.open({ map: false });
    const { page, context } = open;
    await settled(page);
    await page.goto('about:blank');
    const blank = await context.newPage();
    await blank.goto(`${harness.origin}/icon.svg`);
    await blank.evaluate(
      () => new Promise((done) => (indexedDB.deleteDatabase('firnward').onsuccess = done)),
    );
    await page.goto(harness.origin);
    await page.getByText('the projects kept here are gone').first().waitFor();
    await page.locator('.ledger table').first().waitFor();
    await open.close();
  });

  test('E16, E24 a track from the future is said to be one; a script that something puts into the page does not run', async () => {
    const open = await harness.open({ map: false });
    const { page } = open;
    await settled(page);
    const track = readFileSync(
      resolve(import.meta.dirname, '../../sample-tracks/ombry-recorded-day.gpx'),
      'utf8',
    );
    const year = new Date().getUTCFullYear() + 1;
    await dropTexts(page, { 'ahead.gpx': track.replaceAll(/<time>\d{4}/g, `<time>${year}`) });
    await page.getByText('has times that lie in the future').first().waitFor();
    await page.evaluate(() => {
      const strange = document.createElement('script');
      strange.textContent = 'window.strange = true';
      document.body.append(strange);
    });
    expect(await page.evaluate(() => 'strange' in window)).toBe(false);
    expect(open.offences.some((text) => text.includes('script-src'))).toBe(true);
    await rename(page, 'Goes on');
    open.offences.length = 0;
    await open.close();
  });

  test('P14, P15, E22 a raster is kept with its size; another one of its name is asked about; it can be removed', async () => {
    const open = await harness.open({ map: false, width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    const terrain = readFileSync(resolve(import.meta.dirname, '../../public/demo/ombry-terrain.tif'));
    await dropTexts(page, { 'mine.tif': terrain });
    await page.getByRole('button', { name: 'Undo open mine.tif' }).waitFor();
    await onPage(page, 'Ground');
    await page.getByText(/kept on this device, \d/).waitFor();
    await page.reload();
    await page.locator('.ledger table').first().waitFor();
    await onPage(page, 'Ground');
    await page.getByRole('button', { name: 'Remove mine.tif from this device' }).waitFor();
    // A byte after the end is nobody's: the same ground in other contents.
    await dropTexts(page, { 'mine.tif': Buffer.concat([terrain, Buffer.from([0])]) });
    await page.getByText('mine.tif is not the file this plan was made with.').waitFor();
    await page.getByRole('button', { name: 'Do not open' }).click();
    await page.getByRole('button', { name: 'Remove mine.tif from this device' }).click();
    await page.getByRole('button', { name: /^Keep it, \d/ }).waitFor();
    await page.reload();
    await page.getByText('the plan was made with this elevation raster').first().waitFor();
    await open.close();
  });
});

/** A winding way, a point every metre or two: no packing makes its digits shorter. */
function longTrack(count: number): string {
  const points = Array.from({ length: count }, (_, i) => {
    const lat = -48.488 + 0.0008 * Math.sin(i / 40);
    const lon = -21.377 + 2e-5 * i + 1e-5 * Math.cos(i * i);
    return `<trkpt lat="${lat.toFixed(7)}" lon="${lon.toFixed(7)}"/>`;
  });
  return `<gpx version="1.1" creator="made" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>${points.join('')}</trkseg></trk></gpx>`;
}

inBrowser('a plan in a link', (harness) => {
  test('is made, and opens elsewhere after asking, beside what is there; names may stay at home', async () => {
    const open = await harness.open({ map: false, width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    const rows = await ledgerModes(page);
    await onPage(page, 'Projects');
    await page.getByLabel('with names and notes in the link').uncheck();
    await page.getByRole('button', { name: 'Make a link' }).click();
    const link = await page.getByLabel('Link to this project').inputValue();
    expect(link.startsWith(`${harness.origin}/#plan=1.`)).toBe(true);
    expectQuiet(open);
    await open.close();

    const elsewhere = await harness.open({
      map: false,
      hash: link.slice(harness.origin.length),
      width: 1280,
      height: 800,
    });
    await elsewhere.page.getByText('This link holds a plan: Mount Ombry').waitFor();
    await rename(elsewhere.page, 'What was here');
    await elsewhere.page.getByRole('button', { name: 'Open it' }).click();
    await title(elsewhere.page).filter({ hasText: 'Mount Ombry' }).waitFor();
    await settled(elsewhere.page);
    await onPage(elsewhere.page, 'Ledger');
    await elsewhere.page.locator('.ledger table').first().waitFor();
    await settled(elsewhere.page);
    expect(await ledgerModes(elsewhere.page)).toEqual(rows);
    expect(elsewhere.page.url()).not.toContain('#');
    await onPage(elsewhere.page, 'Projects');
    await elsewhere.page.getByRole('button', { name: 'Open What was here' }).waitFor();
    await onPage(elsewhere.page, 'Team');
    expect(await elsewhere.page.locator('.side').innerText()).not.toContain('Ada');
    expectQuiet(elsewhere);
    await elsewhere.close();
  });

  test('that was cut off is answered by a remedy; one too long is told of before it is sent', async () => {
    const open = await harness.open({ map: false, hash: '/#plan=1.nVhNb-M2EP0rhk4J' });
    await open.page.getByRole('alert').filter({ hasText: 'Ask for the link again' }).waitFor();
    await dropTexts(open.page, { 'long.gpx': longTrack(3000) });
    await open.page.getByRole('button', { name: /^Undo open/ }).waitFor({ state: 'attached' });
    await onPage(open.page, 'Projects');
    await open.page.getByRole('button', { name: 'Make a link' }).click();
    await open.page.getByText(/The link would be \d+ characters long/).waitFor();
    await open.close();
  });
});

inBrowser('on the way', (harness) => {
  test('says what is underfoot, what comes, how late, and how far off the line', async () => {
    const [lng, lat] = (JSON.parse(demo) as { line: { points: { position: [number, number] }[] } }).line
      .points[8]!.position;
    const open = await harness.open({
      map: false,
      width: 360,
      height: 740,
      touch: true,
      prepare: async (context) => {
        await context.grantPermissions(['geolocation']);
        await context.setGeolocation({ longitude: lng, latitude: lat, accuracy: 6 });
        await context.addInitScript(() => {
          const start = Date.parse('2026-01-17T07:20:00Z') - Date.now();
          const now = Date.now.bind(Date);
          Date.now = () => now() + start;
        });
      },
    });
    const { page, context } = open;
    await settled(page);
    await onPage(page, 'On the way');
    await page.getByText('Nothing is recorded').waitFor();
    await page.getByRole('button', { name: 'Follow where I am' }).tap();
    const here = page.getByRole('article', { name: 'Here' });
    await here.getByText(/roped travel|running belay|pitched belay|belayed crossing/).waitFor();
    await here.getByText(/steepest/).waitFor();
    await page.getByText(/^\d.*(late|early)$|^on time$/).waitFor();
    await context.setGeolocation({ longitude: lng + 0.02, latitude: lat, accuracy: 6 });
    await page.getByRole('alert').filter({ hasText: 'off the line' }).waitFor();
    await page.getByRole('button', { name: 'Stop following' }).tap();
    await page.getByText('Nothing is recorded').waitFor();
    expectQuiet(open);
    await open.close();
  });
});
