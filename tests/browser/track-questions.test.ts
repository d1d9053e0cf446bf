import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { dropTexts, onPage, settled } from './gestures';
import { expectQuiet, inBrowser } from './harness';

const gpx = (...inside: string[]) =>
  `<?xml version="1.0" encoding="UTF-8"?><gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1">${inside.join('')}</gpx>`;
const trk = (name: string, ...parts: string[][]) =>
  `<trk><name>${name}</name>${parts.map((part) => `<trkseg>${part.join('')}</trkseg>`).join('')}</trk>`;
const pt = (lat: number, lon: number, inside = '') =>
  `<trkpt lat="${lat.toFixed(6)}" lon="${lon.toFixed(6)}">${inside}</trkpt>`;
/** Points going south on the demo's ground, 111 m apart. */
const walk = (from: number, count: number, lon = -21.374) =>
  Array.from({ length: count }, (_, i) => pt(-48.486 - (from + i) / 1000, lon));

/** The question that is asked, and its answers; it says what it is about and every one can be declined. */
const question = (page: Page) => page.locator('form.question');
async function asked(page: Page, words: RegExp): Promise<string[]> {
  await question(page).filter({ hasText: words }).waitFor();
  return question(page).locator('button').allInnerTexts();
}
const answer = (page: Page, label: string | RegExp) =>
  question(page).getByRole('button', { name: label }).click();
/** Points of the active line, as the table of the line counts them. */
async function lineNames(page: Page): Promise<string> {
  await settled(page);
  await onPage(page, 'Line');
  const panel = page.getByRole('tabpanel');
  // The page comes when it is asked for.
  await panel.getByText('Points, one by one').waitFor();
  return panel.innerText();
}
const undoIs = (page: Page, name: RegExp) => page.getByRole('button', { name }).waitFor();

inBrowser('what a track file leaves open is asked', (harness) => {
  test('G3 G13 G23 G25 G29 before it is opened: cut off, encoding, longitudes, missing fixes, elevations', async () => {
    const open = await harness.open({ map: false, width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    const whole = gpx(trk('G', walk(0, 8)));

    // G3: cut off inside a tag. Declined, then taken as it is.
    await dropTexts(page, { 'cut.gpx': whole.slice(0, whole.lastIndexOf('lon=')) });
    expect(await asked(page, /cut\.gpx, line 1, column \d+: .*middle of point 8/)).toEqual([
      'Open the 7 whole points as an incomplete line',
      'Do not open',
    ]);
    await answer(page, 'Do not open');
    await page.getByRole('alert').filter({ hasText: 'GPX-003' }).waitFor();
    await dropTexts(page, { 'cut.gpx': whole.slice(0, whole.lastIndexOf('lon=')) });
    await asked(page, /cut\.gpx/);
    await answer(page, /7 whole points/);
    await undoIs(page, /^Undo open cut\.gpx/);

    // G13: Latin-1 under the name of UTF-8.
    const latin = Buffer.from(gpx(trk('M\u00fcllergrat', walk(1, 5))), 'latin1');
    await dropTexts(page, { 'latin.gpx': latin });
    expect(await asked(page, /latin\.gpx, byte \d+: .*UTF-8/)).toHaveLength(2);
    await answer(page, /Western European/);
    await undoIs(page, /^Undo open latin\.gpx/);
    expect(await lineNames(page)).toContain('M\u00fcllergrat');

    // G23: longitudes from 0 to 360.
    await dropTexts(page, { 'wide.gpx': gpx(trk('wide', walk(2, 5, 338.626))) });
    await asked(page, /beyond 180/);
    await answer(page, /Convert them/);
    await undoIs(page, /^Undo open wide\.gpx/);

    // G25: points at 0, 0.
    await dropTexts(page, { 'zero.gpx': gpx(trk('zero', [...walk(3, 3), pt(0, 0), ...walk(6, 3)])) });
    expect(await asked(page, /point 4.*missing fix/)).toHaveLength(3);
    await answer(page, 'Drop them');
    await undoIs(page, /^Undo open zero\.gpx/);

    // G29: an elevation that is no number.
    await dropTexts(page, {
      'ele.gpx': gpx(trk('ele', [pt(-48.49, -21.375, '<ele>1,234.5</ele>'), ...walk(5, 3)])),
    });
    await asked(page, /point 1.*"1,234\.5"/);
    await answer(page, /without elevations/);
    await undoIs(page, /^Undo open ele\.gpx/);
    expectQuiet(open);
    await open.close();
  });

  test('G15 G16 G17 G27 G38 after it was read: which line, gaps, jumps, places only, the same again', async () => {
    const open = await harness.open({ map: false, width: 1280, height: 800 });
    const { page } = open;
    await settled(page);

    // G16: several tracks; none is merged.
    await dropTexts(page, { 'two.gpx': gpx(trk('upper', walk(0, 4)), trk('lower', walk(5, 6))) });
    const tracks = await asked(page, /holds 2 lines/);
    expect(tracks.slice(0, 2).join('\n')).toMatch(/upper.*334 m, 4 points\n.*lower.*556 m, 6 points/);
    await answer(page, /lower/);
    await undoIs(page, /^Undo open two\.gpx/);

    // G38: the same file once more.
    await dropTexts(page, { 'two.gpx': gpx(trk('lower', walk(5, 6))) });
    await asked(page, /open already/);
    await answer(page, 'Do not open');

    // G17: a gap, left open: two lines, neither with a straight piece across.
    await dropTexts(page, { 'gap.gpx': gpx(trk('gap', walk(0, 3), walk(8, 5))) });
    await asked(page, /1 gap, the widest of 667/);
    expect(await question(page).locator('svg polyline.doubtful').count()).toBe(1);
    await answer(page, /Leave them open/);
    await undoIs(page, /^Undo open gap\.gpx/);
    const parts = await lineNames(page);
    expect(parts).toContain('gap, part 2');
    expect(parts).toContain('gap, part 1');

    // G27: one point 300 km off, named by number and place.
    await dropTexts(page, {
      'spike.gpx': gpx(trk('spike', [...walk(0, 4), pt(-45.8, -21.374), ...walk(4, 4)])),
    });
    await asked(page, /jumps \d+.*km between point 4 \(.*48\..*\) and 5 \(.*45\.8/);
    await answer(page, 'Leave out 1 point beyond the jumps');
    await undoIs(page, /^Undo open spike\.gpx/);

    // G15: waypoints only.
    const wpts = [0, 1, 2].map(
      (i) => `<wpt lat="${-48.49 - i / 1000}" lon="-21.375"><name>w${i}</name></wpt>`,
    );
    await dropTexts(page, { 'places.gpx': gpx(...wpts) });
    await asked(page, /3 waypoints and no line/);
    await answer(page, 'Do not open');
    await dropTexts(page, { 'places.gpx': gpx(...wpts) });
    await asked(page, /3 waypoints and no line/);
    await answer(page, /Join them/);
    await undoIs(page, /^Undo open places\.gpx/);
    expectQuiet(open);
    await open.close();
  });

  test('G24 G30 against the ground: exchanged coordinates, elevations in feet', async () => {
    const open = await harness.open({ map: false, width: 1280, height: 800 });
    const { page } = open;
    await settled(page);

    // G24: latitude and longitude exchanged, with a small picture.
    const swapped = Array.from({ length: 5 }, (_, i) => pt(-21.374, -48.486 - i / 1000));
    await dropTexts(page, { 'swapped.gpx': gpx(trk('swapped', swapped)) });
    await asked(page, /longitude and latitude exchanged/);
    expect(await question(page).locator('svg polygon').count()).toBe(1);
    await answer(page, 'Exchange them');
    await undoIs(page, /^Undo open swapped\.gpx/);
    await settled(page);
    expect(await page.locator('.ledger table tbody tr, [role=tabpanel]').first().innerText()).not.toMatch(
      /no data/,
    );

    // G30: the recorded day with its elevations in feet, its times taken out.
    const day = readFileSync(
      resolve(import.meta.dirname, '../../sample-tracks/ombry-recorded-day.gpx'),
      'utf8',
    )
      .replaceAll(/<time>.*?<\/time>/g, '')
      .replaceAll(/<ele>(.*?)<\/ele>/g, (_, m: string) => `<ele>${(Number(m) / 0.3048).toFixed(1)}</ele>`);
    await dropTexts(page, { 'feet.gpx': day });
    await asked(page, /look like feet/);
    await answer(page, /convert/);
    await undoIs(page, /^Undo open feet\.gpx/);
    expectQuiet(open);
    await open.close();
  });
});
