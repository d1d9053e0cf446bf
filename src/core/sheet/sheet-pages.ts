import { pocketCaution, shortCaution } from './cautions';
import type { MarkupElement } from './markup';
import { pocketBody } from './pocket-body';
import { sheetBody } from './sheet-body';
import type { SheetData } from './sheet-data';
import { pageRules, sheetRules, type Paper } from './sheet-style';

export interface SheetPages {
  readonly rules: string;
  readonly body: MarkupElement;
}

/** The sheet on a paper: its print rules and its contents. The picture is a PNG or JPEG as a data URL. */
export function sheetPages(sheet: SheetData, paper: Paper, mapPicture: string | null): SheetPages {
  const isPocket = paper === 'a6';
  return {
    rules: pageRules(paper, sheet.title, isPocket ? pocketCaution : shortCaution) + sheetRules,
    body: isPocket ? pocketBody(sheet) : sheetBody(sheet, mapPicture),
  };
}
