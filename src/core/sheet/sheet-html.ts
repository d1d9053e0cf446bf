import { escapeText, writeMarkup } from './markup';
import { sheetBody } from './sheet-body';
import type { SheetData } from './sheet-data';
import { pageRules, sheetRules, type Paper } from './sheet-style';

export interface SheetHtmlOptions {
  readonly paper?: Paper;
  /** PNG or JPEG as a data URL. */
  readonly mapPicture?: string | null;
}

/** The sheet as one self-contained page: no script, nothing loaded from anywhere, every word escaped. */
export function sheetHtml(
  sheet: SheetData,
  { paper = 'a4', mapPicture = null }: SheetHtmlOptions = {},
): string {
  return [
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escapeText(sheet.title)}</title>`,
    `<style>${pageRules(paper, sheet.title, sheet.shortCaution)}${sheetRules}</style>`,
    '</head>',
    `<body style="margin:0">${writeMarkup(sheetBody(sheet, mapPicture))}</body>`,
    '</html>',
    '',
  ].join('\n');
}
