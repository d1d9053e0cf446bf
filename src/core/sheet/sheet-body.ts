import { el, type Markup, type MarkupElement } from './markup';
import { segmentTable } from './segment-table';
import type { SheetClock, SheetData, SheetMatrix, SheetPlace, SheetWay } from './sheet-data';
import {
  facts,
  list,
  patternStore,
  rescueBox,
  ribbonKey,
  section,
  smallerFindings,
  table,
  warningList,
} from './sheet-parts';

/** The sheet as pages: first the way, then other snow, bearings and rescue, then what it all rests on. */
export function sheetBody(sheet: SheetData, mapPicture: string | null = null): MarkupElement {
  return el(
    'article',
    { class: 'sheet', lang: 'en' },
    patternStore(),
    sheetHead(sheet),
    el('p', { class: 'headline' }, sheet.headline, sheet.headlineNote === '' ? '' : ` ${sheet.headlineNote}`),
    clockStrip(sheet.clock),
    facts(sheet.totals),
    warningList(sheet.warnings),
    sheet.ways.map((way) => section(way.title, way.ribbon, ribbonKey(way.rows), segmentTable(way.rows))),
    mapsAndTeam(sheet),
    picture(mapPicture),
    el(
      'div',
      { class: 'beside' },
      el(
        'div',
        {},
        sheet.ways.map((way, i) => matrixSection(way, i === 0)),
        sheet.ways.map((way) => section(`Places to be found at: ${way.title}`, placeTable(way.places))),
      ),
      el(
        'div',
        {},
        sheet.ways.map((way) => whiteoutPart(way, sheet)),
        rescueBox(sheet),
        section('What it rests on', facts(sheet.sources), list(sheet.assumptions)),
        sheet.ownNotes === '' ? [] : section('Notes', el('p', {}, sheet.ownNotes)),
      ),
    ),
    ...smallerFindings(sheet.warnings),
    section('Cautions', el('div', { class: 'twofold' }, list(sheet.cautions))),
    el('p', {}, 'This line is 100 mm long if the print is true to scale:', el('span', { class: 'check' })),
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
      ...(sheet.lineName === sheet.title ? [] : [sheet.lineName, el('br')]),
      sheet.made === '' ? '' : `made ${sheet.made}, `,
      `state ${sheet.state}`,
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

/** A narrow map leaves room beside it for the team. */
function mapsAndTeam(sheet: SheetData): Markup[] {
  const more: Markup[] = [
    section('Team and rack', facts(sheet.team)),
    ...(sheet.crossings.length === 0 ? [] : [section('Crossings', ...sheet.crossings.map(crossing))]),
  ];
  const maps = sheet.ways.map(({ title, map }) => section(`Map: ${title}`, map.drawing));
  const areNarrow = sheet.ways.every(({ map }) => map.isNarrow);
  if (!areNarrow) return [...maps, ...more];
  const [first, ...others] = maps;
  if (first === undefined) return more;
  return others.length === 0
    ? [el('div', { class: 'halves' }, first, el('div', {}, ...more))]
    : [el('div', { class: 'halves' }, first, ...others), ...more];
}

const crossing = (place: SheetPlace): MarkupElement =>
  el(
    'p',
    { class: 'whole' },
    el('span', { class: 'strong' }, `${place.name} at ${place.along}`),
    `: ${place.more}. `,
    el('span', { class: 'tight' }, place.decimalDegrees),
    '; ',
    el('span', { class: 'tight' }, place.mgrs),
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

/** The technique under every snow; what the letters mean is said under the first. */
export const matrixSection = ({ title, matrix }: SheetWay, isFirst: boolean): MarkupElement =>
  matrix === null
    ? section(
        `Other snow: ${title}`,
        el('p', {}, 'Not computed for this sheet: it holds for the planned snow only.'),
      )
    : section(
        `Other snow: ${title}`,
        table(
          'matrix',
          ['No.', ...matrix.columns.map(({ hardness }) => hardness)],
          [
            ...matrix.rows.map(({ number, cells }) => matrixRow(matrix, number, cells)),
            matrixRow(matrix, 'all', matrix.totals),
          ],
        ),
        ...(isFirst ? [el('p', { class: 'whole' }, matrix.key)] : []),
      );

const matrixRow = (matrix: SheetMatrix, head: string, cells: readonly string[]): MarkupElement =>
  el(
    'tr',
    {},
    el('th', { scope: 'row', class: 'strong' }, head),
    cells.map((cell, i) =>
      el('td', { class: matrix.columns[i]?.isPlanned === true ? 'planned' : null }, cell),
    ),
  );

const placeTable = (places: readonly SheetPlace[]) =>
  table(
    'places',
    ['Place', 'At', 'Decimal degrees', 'MGRS'],
    places.map((place) =>
      el(
        'tr',
        {},
        el('th', { scope: 'row' }, place.name),
        el('td', { class: 'right' }, place.along),
        el('td', { class: 'tight' }, place.decimalDegrees),
        el('td', { class: 'tight' }, place.mgrs),
      ),
    ),
  );

function whiteoutPart({ title, whiteout }: SheetWay, { declination }: SheetData): MarkupElement {
  return section(
    `Whiteout: ${title}`,
    table(
      'whiteout',
      ['Leg', 'From–to', 'True', 'Magn.', 'Length', 'Height'],
      whiteout.legs.map((leg) =>
        el(
          'tr',
          {},
          el('th', { scope: 'row', class: 'strong' }, leg.number),
          el('td', { class: 'tight' }, leg.stretch),
          el('td', { class: 'right strong' }, leg.trueBearing),
          el('td', { class: 'right strong' }, leg.magneticBearing ?? '—'),
          el('td', { class: 'right' }, leg.distance),
          el('td', { class: 'right' }, leg.height),
        ),
      ),
    ),
    el('p', {}, `Straight legs; the line lies within ${whiteout.asideText} of them. ${declination}`),
  );
}
