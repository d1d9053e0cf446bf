import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { makeSheet } from '../../src/core/sheet/make-sheet';
import { sheetHtml, type SheetHtmlOptions } from '../../src/core/sheet/sheet-html';
import { papers, type Paper } from '../../src/core/sheet/sheet-style';
import { madeUpMatrix } from '../app/fixture/made-up-matrix';
import { longPlan, madeUpPlan, madeUpProfile, madeUpProject } from '../app/fixture/made-up-plan';
import { findChromium } from './chromium';
import { pdfPages, type PdfPage } from './pdf-text';

const executablePath = await findChromium();
const title = 'the sheet on paper';
if (executablePath === null) console.warn(`${title}: not run, no Chromium found (set CHROMIUM_PATH)`);

const sheetOf = (plan: ReturnType<typeof madeUpPlan>) =>
  makeSheet({
    plan,
    project: madeUpProject,
    terrain: madeUpProfile(plan).terrain,
    matrix: madeUpMatrix(plan),
    madeAt: '2027-05-13T18:40:00-02:00',
  });
const short = sheetOf(madeUpPlan());
const long = sheetOf(longPlan(60));

const between = (value: number, least: number, most: number) => value > least && value < most;

/** Numbers of the segments whose rows begin on a page: at its left edge, with a place of the grid in the same line. */
const rowsOn = ({ shown }: PdfPage, sheet: ReturnType<typeof sheetOf>): string[] => {
  const leftPt = Math.min(...shown.map((one) => one.leftPt));
  const grids = new Set(sheet.ways[0]?.rows.map(({ brief }) => brief.grid));
  return shown
    .filter(({ text, leftPt: left, downPt }) => {
      const inLine = shown.some((other) => grids.has(other.text) && Math.abs(other.downPt - downPt) < 2);
      return /^\d+$/.test(text) && left - leftPt < 6 && inLine;
    })
    .map(({ text }) => text);
};

describe.skipIf(executablePath === null)(title, () => {
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: executablePath ?? '', args: ['--no-sandbox'] });
    page = await browser.newPage();
    await page.emulateMedia({ media: 'print' });
  });
  afterAll(async () => {
    await browser?.close();
  });

  /** ISO 216 for A4 and A6; Letter is 8.5 by 11 inches. 72 points to the inch. */
  const sizes: Readonly<Record<Paper, readonly [number, number]>> = {
    a4: [595.28, 841.89],
    letter: [612, 792],
    a6: [297.64, 419.53],
  };

  const printed = async (
    sheet: ReturnType<typeof sheetOf>,
    options: SheetHtmlOptions,
  ): Promise<PdfPage[]> => {
    await page.setContent(sheetHtml(sheet, options));
    return pdfPages(await page.pdf({ preferCSSPageSize: true }));
  };

  test.each(papers)(
    '%s: every page has its size, its number and the caution, and print is as large as it was set',
    async (paper) => {
      const pages = await printed(long, { paper, withOverleaf: true });
      expect(pages.length).toBeGreaterThan(2);
      pages.forEach((one, i) => {
        expect(Math.abs(one.widthPt - sizes[paper][0])).toBeLessThan(1.5);
        expect(Math.abs(one.heightPt - sizes[paper][1])).toBeLessThan(1.5);
        expect(one.text).toMatch(new RegExp(`page ${i + 1} ?of ${pages.length}`));
        expect(one.text).toContain(long.state);
        expect(one.text).toContain('Planning aid only');
        expect(one.text).toContain('Check every piece by hand');
        if (paper !== 'a6') expect(one.text).toContain('RT roped travel · RB running belay');
        // A browser shrinks the whole page where anything is wider than the paper: that would show here.
        const sizesPt = one.shown.filter(({ text }) => text.trim() !== '').map(({ sizePt }) => sizePt);
        expect(Math.min(...sizesPt)).toBeGreaterThan(9.98);
      });
    },
  );

  test('a6: a map stays on one page with its heading, its key and its grid', async () => {
    // A line due north is as high as a map gets.
    const north = madeUpPlan();
    const stations = north.stations.map((station, i) => ({
      ...station,
      position: [station.position[0], 45 + i / 9000] as const,
    }));
    const pages = await printed(sheetOf({ ...north, stations }), { paper: 'a6' });
    const maps = pages.filter(({ text }) => text.includes('Map:'));
    expect(maps.length).toBeGreaterThan(0);
    for (const { text } of maps) expect(text).toMatch(/grid north/);
  });

  test.each(['a4', 'letter'] as const)('%s: nine segments fit one page', async (paper) => {
    expect(await printed(short, { paper })).toHaveLength(1);
  });

  test.each(['a4', 'letter'] as const)(
    '%s: sixty segments stand whole on their pages, each page with the heads again',
    async (paper) => {
      const pages = await printed(long, { paper });
      expect(pages.length).toBeGreaterThan(1);
      const tables = pages.filter((one) => rowsOn(one, long).length > 0);
      expect(tables.length).toBeGreaterThan(1);
      expect(tables.every((one) => one.text.includes('run-out') && one.text.includes('In other snow'))).toBe(
        true,
      );
      // Every row once, and what is said below it on the same page, right below.
      expect(tables.flatMap((one) => rowsOn(one, long))).toEqual(long.ways[0]?.rows.map((row) => row.number));
      const said = tables.flatMap((one) =>
        one.shown.flatMap(({ text, downPt }) => {
          if (!text.startsWith('another line, other snow')) return [];
          const above = one.shown.find(
            (other) => other.text === 'NH' && between(downPt - other.downPt, 9, 15),
          );
          return [above !== undefined];
        }),
      );
      expect(said.length).toBe(long.ways[0]?.rows.filter(({ mode }) => mode === 'none-holds').length);
      expect(new Set(said)).toEqual(new Set([true]));
    },
  );

  test.each([
    ['a4', 191],
    ['letter', 199.9],
    ['a6', 95],
  ] as const)('%s: no letter is smaller than ten points, in drawings neither', async (paper, widthMm) => {
    await page.setViewportSize({ width: Math.round((widthMm / 25.4) * 96), height: 1000 });
    await page.setContent(sheetHtml(long, { paper }));
    const leastPx = await page.evaluate(() => {
      const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      let least = Infinity;
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const parent = node.parentElement;
        if (!parent || node.textContent?.trim() === '') continue;
        const sizePx = parseFloat(getComputedStyle(parent).fontSize);
        const scale = parent instanceof SVGGraphicsElement ? (parent.getScreenCTM()?.a ?? 0) : 1;
        least = Math.min(least, sizePx * scale);
      }
      return least;
    });
    expect(leastPx * 0.75).toBeGreaterThanOrEqual(9.99);
  });

  test('nothing sticks out of the paper', async () => {
    for (const [paper, widthMm] of [
      ['a4', 191],
      ['letter', 199.9],
      ['a6', 95],
    ] as const) {
      const width = Math.round((widthMm / 25.4) * 96);
      await page.setViewportSize({ width, height: 1000 });
      await page.setContent(sheetHtml(long, { paper }));
      const widest = await page.evaluate(() => document.documentElement.scrollWidth);
      expect(widest).toBeLessThanOrEqual(width + 1);
    }
  });

  test('E19 is black and white: no colour anywhere', async () => {
    await page.setContent(sheetHtml(short));
    const colours = await page.evaluate(() =>
      [...document.querySelectorAll('.sheet, .sheet *')].flatMap((one) => {
        const { color, backgroundColor, fill, stroke } = getComputedStyle(one);
        return [color, backgroundColor, fill, stroke];
      }),
    );
    const known = /^(none|rgb\(0, 0, 0\)|rgb\(255, 255, 255\)|rgba\(0, 0, 0, 0\)|url\(.*)$/;
    expect([...new Set(colours)].filter((colour) => !known.test(colour))).toEqual([]);
  });

  test('nothing is asked of any host', async () => {
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    await page.setContent(sheetHtml(long));
    await page.waitForTimeout(200);
    expect(asked.filter((url) => !url.startsWith('data:') && url !== 'about:blank')).toEqual([]);
  });
});
