import { escapeText, writeMarkup } from './markup';
import { fontFaces } from './sheet-font';
import type { SheetExtras } from './sheet-body';
import type { SheetData } from './sheet-data';
import { sheetPages } from './sheet-pages';
import type { Paper } from './sheet-style';

export interface SheetHtmlOptions extends Partial<SheetExtras> {
  readonly paper?: Paper;
}

/** The sheet as one self-contained page: no script, nothing loaded from anywhere, every word escaped. */
export function sheetHtml(
  sheet: SheetData,
  { paper = 'a4', mapPicture = null, withOverleaf = false }: SheetHtmlOptions = {},
): string {
  const { rules, body } = sheetPages(sheet, paper, { mapPicture, withOverleaf });
  return [
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escapeText(sheet.title)}</title>`,
    `<style>${fontFaces}\n${rules}</style>`,
    '</head>',
    `<body style="margin:0">${writeMarkup(body)}</body>`,
    '</html>',
    '',
  ].join('\n');
}
