import { el, type Markup, type MarkupElement } from './markup';
import { segmentTable } from './segment-table';
import type { SheetClock, SheetData, SheetPlace, SheetWay } from './sheet-data';
import { placementKey } from './brief-row';
import { matrixKey } from './sheet-matrix';
import {
  facts,
  legend,
  list,
  patternStore,
  rescueBox,
  section,
  smallerFindings,
  table,
  warningList,
} from './sheet-parts';
import { roomToWrite } from './room-to-write';
import { whiteoutSection } from './whiteout-section';

export interface SheetExtras {
  /** PNG or JPEG as a data URL. */
  readonly mapPicture: string | null;
  /** Bearings for whiteout, hours, room to write, smaller findings and a line to check the print by, on pages of their own. */
  readonly withOverleaf: boolean;
}

/** The sheet: the day, where it leads, segment by segment; then what to mind and how to be found. */
export function sheetBody(sheet: SheetData, { mapPicture, withOverleaf }: SheetExtras): MarkupElement {
  const rows = sheet.ways.flatMap((way) => way.rows);
  return el(
    'article',
    { class: 'sheet', lang: 'en' },
    patternStore(),
    sheetHead(sheet),
    clockStrip(sheet.clock),
    sheet.ways.flatMap((way, i) =>
      front(way, i === 0 ? { key: legend(rows), beside: warningList(sheet.warnings) } : null),
    ),
    segmentTable(sheet.ways, sheet.units),
    el('p', { class: 'whole' }, tableKey(sheet)),
    el(
      'div',
      { class: 'columns' },
      section('Cautions', list(sheet.cautions)),
      section('To be found at', placeTable(sheet.places)),
      rescueBox(sheet),
      el('section', { class: 'runin' }, el('h2', {}, 'Team'), facts(sheet.team)),
      el('section', { class: 'runin' }, el('h2', {}, 'Data'), facts(sheet.sources)),
      el(
        'section',
        { class: 'runin' },
        el('h2', {}, 'Assumptions'),
        el('p', {}, sheet.assumptions.join(' ')),
      ),
      sheet.ownNotes === ''
        ? []
        : el('section', { class: 'runin' }, el('h2', {}, 'Notes'), el('p', {}, sheet.ownNotes)),
    ),
    picture(mapPicture),
    ...(withOverleaf ? overleaf(sheet) : []),
  );
}

const sheetHead = (sheet: SheetData): MarkupElement =>
  el(
    'header',
    {},
    el('h1', {}, sheet.title),
    el(
      'p',
      {},
      [
        sheet.lineName === sheet.title ? '' : sheet.lineName,
        sheet.zone,
        sheet.made === '' ? '' : `made ${sheet.made}`,
        `state ${sheet.state}`,
      ]
        .filter((words) => words !== '')
        .join(' · '),
    ),
  );

/** The day's times in large figures; what is not known leaves room to write it. */
export const clockStrip = (clock: readonly SheetClock[]): Markup[] =>
  clock.length === 0
    ? []
    : [
        el(
          'dl',
          { class: 'clock' },
          clock.map(({ label, time, more }) =>
            el(
              'div',
              {},
              el('dt', {}, label),
              el(
                'dd',
                {},
                el('span', { class: time === null ? 'time blank' : 'time' }, time ?? '\u00a0'),
                ` ${more}`,
              ),
            ),
          ),
        ),
      ];

/** Map, and beside it the ribbon and what else finds room there. */
const front = (
  { drawn, title }: SheetWay,
  more: { readonly key: MarkupElement; readonly beside: MarkupElement } | null,
): Markup[] =>
  drawn === null
    ? []
    : [
        el(
          'section',
          { class: 'front', 'aria-label': `Map and ribbon: ${title}` },
          el('div', { class: 'map-side' }, drawn.map, more === null ? [] : more.key),
          el('div', {}, drawn.ribbon, more === null ? [] : more.beside),
        ),
      ];

/** What the letters and figures of the table mean. */
function tableKey({ ways }: SheetData): string {
  const matrix = ways.find((way) => way.matrix !== null)?.matrix ?? null;
  if (matrix === null)
    return `${placementKey} Other snow: not computed for this sheet, it holds for the planned snow only.`;
  const symbols = matrix.columns.map(({ symbol, hardness }) => `${symbol} ${hardness}`).join(', ');
  return `${placementKey} ${symbols}. ${matrixKey}`;
}

const placeTable = (places: readonly SheetPlace[]): MarkupElement => {
  const square = sharedSquare(places);
  return table(
    'places',
    ['Place', 'At', 'Decimal degrees', `MGRS ${square ?? ''}`],
    places.map((place) =>
      el(
        'tr',
        {},
        el('th', { scope: 'row' }, place.name),
        el('td', { class: 'right' }, place.along),
        el('td', { class: 'tight' }, place.decimalDegrees),
        el('td', { class: 'tight' }, square === null ? place.mgrs : place.mgrs.slice(square.length + 1)),
      ),
    ),
  );
};

/** The square of 100 km that all places lie in: said once in the head. */
function sharedSquare(places: readonly SheetPlace[]): string | null {
  const [only, ...others] = new Set(places.map(({ mgrs }) => /^\d+[A-Z]{3}(?= )/.exec(mgrs)?.[0] ?? null));
  return others.length === 0 ? (only ?? null) : null;
}

const hoursSection = (ways: readonly SheetWay[]): MarkupElement =>
  section(
    'Hours',
    ...ways.map(({ title, hours }) =>
      el('p', {}, `${title}: ${hours.map(({ label, text }) => `${label} ${text}`).join('; ') || 'none'}.`),
    ),
  );

/** Only a picture made here is shown: PNG or JPEG as a data URL. */
function picture(dataUrl: string | null): Markup[] {
  if (dataUrl === null || !/^data:image\/(png|jpeg);base64,[a-zA-Z0-9+/=]+$/.test(dataUrl)) return [];
  return [
    section(
      'Map with relief',
      el('img', { class: 'picture', src: dataUrl, alt: 'Map of the line on its relief' }),
    ),
  ];
}

const overleaf = (sheet: SheetData): Markup[] => [
  el(
    'div',
    { class: 'overleaf' },
    el('div', { class: 'columns' }, ...sheet.ways.map((way) => whiteoutSection(way, sheet.declination))),
    hoursSection(sheet.ways),
    ...smallerFindings(sheet.warnings),
    ...sheet.ways.map(roomToWrite),
    el('p', {}, 'This line is 100 mm long if the print is true to scale:', el('span', { class: 'check' })),
  ),
];
