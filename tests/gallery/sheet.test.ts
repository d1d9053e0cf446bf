import { expect, test } from 'vitest';
import Sheet from '../../src/app/sheet/Sheet.svelte';
import { makeSheet } from '../../src/core/sheet/make-sheet';
import { sheetHtml } from '../../src/core/sheet/sheet-html';
import { madeUpMatrix } from '../app/fixture/made-up-matrix';
import { madeUpPlan, madeUpProfile, madeUpProject } from '../app/fixture/made-up-plan';
import { galleryPage } from './page';

/** The letters are bytes that nobody reviews here. */
const withoutLetters = (page: string) => page.replaceAll(/(data:font\/woff2;base64,)[\w+/=]+/g, '$1…');

const plan = madeUpPlan();
const sheet = makeSheet({
  plan,
  project: madeUpProject,
  terrain: madeUpProfile(plan).terrain,
  matrix: madeUpMatrix(plan),
  madeAt: '2027-05-13T18:40:00-02:00',
});

test('the sheet of nine stretches, A4, Letter and pocket, without a browser', async () => {
  await expect(withoutLetters(sheetHtml(sheet))).toMatchFileSnapshot('output/sheet-a4.html');
  await expect(withoutLetters(sheetHtml(sheet, { paper: 'letter' }))).toMatchFileSnapshot(
    'output/sheet-letter.html',
  );
  await expect(withoutLetters(sheetHtml(sheet, { paper: 'a6' }))).toMatchFileSnapshot(
    'output/sheet-pocket.html',
  );
});

/** Words of a page, tags taken away. */
const wordsOf = (page: string) =>
  (/<body[^>]*>([\s\S]*)<\/body>/.exec(page)?.[1] ?? '')
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll('&#39;', "'")
    .replaceAll('&quot;', '"')
    .replaceAll('&gt;', '>')
    .replaceAll(/\s+/g, ' ')
    .trim();

test('the page says word for word what the file says', () => {
  expect(wordsOf(galleryPage(Sheet, { sheet }))).toBe(wordsOf(sheetHtml(sheet)));
});

test('the sheet drawn by the page', async () => {
  await expect(galleryPage(Sheet, { sheet })).toMatchFileSnapshot('output/sheet-page.html');
});
