import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import Papa from 'papaparse';
import type { Download, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { Project } from '../../src/core/domain/project';
import { readTrackFile } from '../../src/core/files/track-file';
import { markup } from '../hostile/markup';
import { dropTexts, onPage, pageNames, settled } from './gestures';
import { expectQuiet, inBrowser } from './harness';

const demo = JSON.parse(
  readFileSync(resolve(import.meta.dirname, '../../public/demo/ombry.firnward.json'), 'utf8'),
) as Project;
const all = markup.join(' ');
const points = demo.line.points;
const at = (i: number): readonly [number, number] => points[i % points.length]?.position ?? [0, 0];

/** The demo with every text of a project being one of the markups, or all of them. */
const project = {
  ...demo,
  name: all,
  notes: all,
  line: { ...demo.line, name: all },
  alternatives: markup.map((name, i) => ({ id: `alternative${i}`, name, points: points.slice(0, 3) })),
  marks: markup.map((note, i) => ({
    ...{ id: `mark${i}`, kind: i % 2 ? 'note' : 'crevasse-crossing', positions: [at(i)] },
    note,
  })),
  overrides: markup.map((note, i) => ({
    id: `stretch${i}`,
    fromM: 40 * i,
    toM: 40 * i + 40,
    runOut: 'gentle',
    note,
  })),
  party: {
    ...demo.party,
    climbers: [0, 1, 2].map((i) => ({
      ...demo.party.climbers[i],
      name: markup.slice(20 * i, 20 * i + 20).join(' '),
    })),
  },
  terrain: [
    ...demo.terrain,
    ...markup.slice(0, 40).map((fileName) => ({ fileName, crs: fileName, surveyed: fileName.slice(0, 99) })),
  ],
};

const xml = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
const gpx = `<gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1">${markup
  .map(
    (text, i) =>
      `<wpt lat="${at(i)[1]}" lon="${at(i)[0]}"><name>${xml(text)}</name><desc>${xml(text)}</desc></wpt>`,
  )
  .join('')}${markup
  .map(
    (text, i) =>
      `<trk><name>${xml(text)}</name><trkseg>${[0, 1, 2].map((k) => `<trkpt lat="${at(i + k)[1]}" lon="${at(i + k)[0]}"/>`).join('')}</trkseg></trk>`,
  )
  .join('')}</gpx>`;
const kml = `<kml xmlns="http://www.opengis.net/kml/2.2"><Document>${markup
  .map(
    (text, i) =>
      `<Placemark><name>${xml(text)}</name><description>${xml(text)}</description><LineString><coordinates>${at(i).join(',')} ${at(i + 1).join(',')}</coordinates></LineString></Placemark>`,
  )
  .join('')}</Document></kml>`;
const geojson = JSON.stringify({
  type: 'FeatureCollection',
  features: markup.map((name, i) => ({
    type: 'Feature',
    properties: { name, desc: name },
    geometry: { type: 'LineString', coordinates: [at(i), at(i + 1)] },
  })),
});

/** Whatever was taken for more than text would have left one of these behind, or have run. */
async function expectOnlyText(page: Page): Promise<void> {
  const found = await page.evaluate(() => ({
    ran: (top as unknown as { ran?: number }).ran ?? 0,
    elements: [...document.querySelectorAll('*')].flatMap((element) => [
      ...(/^(iframe|object|embed|base|marquee|plaintext|foreignobject|animate|set|math|template)$/i.test(
        element.tagName,
      )
        ? [element.tagName]
        : []),
      ...[...element.attributes]
        .filter(({ name }) => /^on/i.test(name))
        .map(({ name }) => `${element.tagName} ${name}`),
    ]),
    addresses: [...document.querySelectorAll('[href],[src],[action]')]
      .map((element) => element.getAttribute('href') ?? element.getAttribute('src') ?? '')
      .filter((address) => /^javascript:|^data:text/i.test(address)),
  }));
  expect(found).toEqual({ ran: 0, elements: [], addresses: [] });
}

async function saved(page: Page, label: RegExp): Promise<string> {
  await page.getByText('Save', { exact: true }).click();
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.locator('details[open] button').filter({ hasText: label }).first().click(),
  ]);
  return textOf(download);
}
const textOf = async (download: Download): Promise<string> => {
  expect(download.suggestedFilename()).toMatch(/^[\p{L}\p{N}. _-]{1,80}$/u);
  return readFileSync(await download.path(), 'utf8');
};

inBrowser('G36 names that are markup', (harness) => {
  test('in a project: shown as they are on every page and on the sheet, written as they are in every file', async () => {
    const open = await harness.open({ map: false, width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    await dropTexts(page, { 'markup.firnward.json': JSON.stringify(project) });
    await expect.poll(() => page.locator('header .name').innerText()).toContain(markup[0]);
    await settled(page);
    for (const name of pageNames) {
      await onPage(page, name);
      await page.evaluate(() => {
        for (const each of document.querySelectorAll<HTMLDetailsElement>('.side details')) each.open = true;
      });
      await expectOnlyText(page);
    }
    await onPage(page, 'Ledger');
    await page.locator('.ledger table tbody tr').first().click();
    await expectOnlyText(page);
    expect(await page.locator('header .name').innerText()).toContain(markup[0]);

    const again = readTrackFile(new TextEncoder().encode(await saved(page, /^GPX/)), 'a.gpx');
    expect(again.ok && again.value.tracks[0]?.name).toBe(all);
    const names = again.ok ? again.value.waypoints.flatMap(({ name, note }) => [name, note]).join('\n') : '';
    for (const text of markup) expect(names).toContain(text.trim());
    const rows = Papa.parse<string[]>(await saved(page, /^CSV of segments/)).data;
    for (const cell of rows.slice(1).flat()) expect(cell).not.toMatch(/^[=+@\t\r]/);
    expect(JSON.parse(await saved(page, /^GeoJSON/))).toMatchObject({ type: 'FeatureCollection' });
    expect(JSON.parse(await saved(page, /^Project/))).toMatchObject({ name: all, notes: all });

    await page.getByRole('button', { name: 'Sheet' }).click();
    await page.locator('.sheet table').first().waitFor();
    await expectOnlyText(page);
    await page.emulateMedia({ media: 'print' });
    await expectOnlyText(page);
    await page.emulateMedia({ media: 'screen' });
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as one HTML file' }).click(),
    ]);
    const html = await textOf(download);
    expectQuiet(open);

    // The sheet as a file, without its own content policy: nothing but escaping stands between its words and a script.
    const bare = await open.context.newPage();
    await bare.setContent(html.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, ''));
    await expectOnlyText(bare);
    expect(await bare.title()).toContain(markup[0]);
    await open.close();
  });

  test.each([
    ['gpx', gpx],
    ['kml', kml],
    ['geojson', geojson],
  ])('in %s: asked about, opened and told as they are', async (ending, text) => {
    const open = await harness.open({ map: false, width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    const name = `<img src=x onerror=top.ran=1>.${ending}`;
    await dropTexts(page, { [name]: text });
    await page.locator('form.question').waitFor();
    const labels = await page.locator('form.question button').allInnerTexts();
    expect(labels).toHaveLength(markup.length + 1);
    await expectOnlyText(page);
    await page.locator('form.question button').nth(12).click();
    await page.getByRole('button', { name: /^Undo open/ }).waitFor();
    if (ending === 'gpx') await page.getByRole('button', { name: 'Take over as marks' }).click();
    await settled(page);
    await onPage(page, 'Marks');
    await expectOnlyText(page);
    await onPage(page, 'Line');
    await expectOnlyText(page);
    expectQuiet(open);
    await open.close();
  });
});
