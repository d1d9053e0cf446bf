import { pocketCaution, shortCaution } from './cautions';
import type { MarkupElement } from './markup';
import { modeLegend } from './mode-pattern';
import { pocketBody } from './pocket-body';
import { sheetBody, type SheetExtras } from './sheet-body';
import type { SheetData } from './sheet-data';
import { pageRules, sheetRules, type EveryPage, type Paper } from './sheet-style';

export interface SheetPages {
  readonly rules: string;
  readonly body: MarkupElement;
}

/** The sheet on a paper: its print rules and its contents. */
export function sheetPages(sheet: SheetData, paper: Paper, extras: SheetExtras): SheetPages {
  const isPocket = paper === 'a6';
  return {
    rules: pageRules(paper, everyPage(sheet, isPocket)) + sheetRules,
    body: isPocket ? pocketBody(sheet) : sheetBody(sheet, extras),
  };
}

/** A pocket's page has no room for the legend. */
const everyPage = ({ title, made, state }: SheetData, isPocket: boolean): EveryPage => ({
  title,
  made: isPocket ? state : [made.slice(0, 16), state].filter((words) => words !== '').join(' · '),
  caution: isPocket ? pocketCaution : shortCaution,
  legend: isPocket ? '' : modeLegend,
});
