import { pocketCaution, shortCaution } from './cautions';
import { modeName, modes } from '../domain/mode';
import type { MarkupElement } from './markup';
import { modeCode } from './mode-pattern';
import { pocketBody } from './pocket-body';
import { sheetBody } from './sheet-body';
import type { SheetData } from './sheet-data';
import { pageRules, sheetRules, type EveryPage, type Paper } from './sheet-style';

export interface SheetPages {
  readonly rules: string;
  readonly body: MarkupElement;
}

/** The sheet on a paper: its print rules and its contents. The picture is a PNG or JPEG as a data URL. */
export function sheetPages(sheet: SheetData, paper: Paper, mapPicture: string | null): SheetPages {
  const isPocket = paper === 'a6';
  return {
    rules: pageRules(paper, everyPage(sheet, isPocket)) + sheetRules,
    body: isPocket ? pocketBody(sheet) : sheetBody(sheet, mapPicture),
  };
}

/** A pocket's page has no room for the legend. */
const everyPage = ({ title, made, state }: SheetData, isPocket: boolean): EveryPage => ({
  title,
  made: isPocket ? state : [made.slice(0, 16), state].filter((words) => words !== '').join(' · '),
  caution: isPocket ? pocketCaution : shortCaution,
  legend: isPocket ? '' : modes.map((mode) => `${modeCode[mode]} ${modeName[mode]}`).join(' · '),
});
