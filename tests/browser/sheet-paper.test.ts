import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { makeSheet } from '../../src/core/sheet/make-sheet';
import { sheetHtml } from '../../src/core/sheet/sheet-html';
import { papers, type Paper } from '../../src/core/sheet/sheet-style';
import { madeUpMatrix } from '../app/fixture/made-up-matrix';
import { longPlan, madeUpPlan, madeUpProfile, madeUpProject } from '../app/fixture/made-up-plan';
import { findChromium } from './chromium';

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

/** Pages of a PDF and their size in points, from its page objects. */
function pagesOf(pdf: Buffer): { readonly widthPt: number; readonly heightPt: number }[] {
  const text = pdf.toString('latin1');
  const boxes = [...text.matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/g)];
  return boxes.map((box) => ({ widthPt: Number(box[1]), heightPt: Number(box[2]) }));
}

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

  test.each(papers)('%s: every page has its size, and sixty segments take several', async (paper) => {
    await page.setContent(sheetHtml(long, { paper }));
    const pages = pagesOf(await page.pdf({ preferCSSPageSize: true }));
    expect(pages.length).toBeGreaterThan(4);
    for (const { widthPt, heightPt } of pages) {
      expect(Math.abs(widthPt - sizes[paper][0])).toBeLessThan(1.5);
      expect(Math.abs(heightPt - sizes[paper][1])).toBeLessThan(1.5);
    }
  });

  test.each(['a4', 'letter'] as const)('%s: nine segments fit three pages', async (paper) => {
    await page.setContent(sheetHtml(short, { paper }));
    expect(pagesOf(await page.pdf({ preferCSSPageSize: true })).length).toBeLessThanOrEqual(3);
  });

  test('no row is split and headings repeat', async () => {
    await page.setContent(sheetHtml(long));
    const rows = await page
      .locator('.sheet tr')
      .evaluateAll((all) => all.map((row) => getComputedStyle(row).breakInside));
    expect(rows.length).toBeGreaterThan(60);
    expect(new Set(rows)).toEqual(new Set(['avoid']));
    const heads = await page
      .locator('.sheet thead')
      .evaluateAll((all) => all.map((one) => getComputedStyle(one).display));
    expect(new Set(heads)).toEqual(new Set(['table-header-group']));
  });

  test.each([
    ['a4', 190],
    ['letter', 195.9],
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
      ['a4', 190],
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
