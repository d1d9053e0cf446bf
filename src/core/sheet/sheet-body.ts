import { el, type Markup, type MarkupElement } from './markup';
import type { SheetData, SheetMatrix, SheetPlace, SheetRow, SheetWay } from './sheet-data';
import {
  facts,
  lines,
  list,
  patternStore,
  rescueBox,
  section,
  smallerFindings,
  swatch,
  table,
  warningList,
} from './sheet-parts';

/** The sheet as a page: the front for the way, the back for other snow, bearings, rescue and what it all rests on. */
export function sheetBody(sheet: SheetData, mapPicture: string | null = null): MarkupElement {
  return el(
    'article',
    { class: 'sheet', lang: 'en' },
    patternStore(),
    el(
      'header',
      {},
      el('h1', {}, sheet.title),
      el('p', {}, sheet.lineName, ...(sheet.made === '' ? [] : [el('br'), `made ${sheet.made}`])),
    ),
    el('p', { class: 'headline' }, sheet.headline, sheet.headlineNote === '' ? '' : ` ${sheet.headlineNote}`),
    facts(sheet.totals),
    warningList(sheet.warnings),
    sheet.ways.map((way) => section(way.title, way.ribbon, segmentTable(way.rows))),
    sheet.ways.map((way) => section(`Map: ${way.title}`, way.map)),
    picture(mapPicture),
    sheet.matrix === null
      ? section(
          'Condition matrix',
          el('p', {}, 'Not computed for this sheet: it holds for the planned snow only.'),
        )
      : section('Condition matrix: mode of every segment under every hardness', ...matrixTable(sheet.matrix)),
    section('Team and rack', facts(sheet.team)),
    sheet.crossings.length === 0 ? [] : section('Crossings', placeTable(sheet.crossings, 'Seen')),
    sheet.ways.map((way) => whiteoutPart(way, sheet)),
    section('Places to be found at', placeTable(sheet.places, 'Pieces')),
    rescueBox(sheet),
    section('What it rests on', facts(sheet.sources), list(sheet.assumptions)),
    sheet.ownNotes === '' ? [] : section('Notes', el('p', {}, sheet.ownNotes)),
    ...smallerFindings(sheet.warnings),
    section('Cautions', list(sheet.cautions)),
    el('p', {}, 'This line is 100 mm long if the print is true to scale:', el('span', { class: 'check' })),
  );
}

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

/** Heads and the classes of their widths. */
const columns = [
  ['No.', 'number'],
  ['From', 'place'],
  ['Ground', 'ground'],
  ['Mode, pieces, snow, run-out', 'mode'],
  ['Time, clock', 'time'],
  ['Found', 'found'],
] as const;

function segmentTable(rows: readonly SheetRow[]): MarkupElement {
  return el(
    'table',
    { class: 'segments' },
    el(
      'colgroup',
      {},
      columns.map(([, width]) => el('col', { class: width })),
    ),
    el(
      'thead',
      {},
      el(
        'tr',
        {},
        columns.map(([head]) => el('th', { scope: 'col' }, head)),
      ),
    ),
    el('tbody', {}, rows.map(segmentRow)),
  );
}

const segmentRow = (row: SheetRow): MarkupElement =>
  el(
    'tr',
    {},
    el('th', { scope: 'row', class: 'strong' }, row.number),
    el('td', {}, lines([row.from, row.fromPosition.join(', '), row.landmark])),
    el('td', {}, lines([`${row.length} ${row.rise}`, `${row.steepest} ${row.facing}`])),
    el(
      'td',
      {},
      swatch(row.mode),
      el('span', { class: 'strong' }, row.modeName),
      row.manner.length === 0 ? '' : `: ${row.manner.join('; ')}`,
      lines([row.gatherings, `${row.snow}; run-out ${row.runOut}`]),
    ),
    el('td', {}, lines([row.clock === '' ? row.time : `${row.time} at ${row.clock}`, row.range])),
    el('td', {}, row.note),
  );

function matrixTable(matrix: SheetMatrix): Markup[] {
  const look = (i: number) => (matrix.columns[i]?.isPlanned === true ? 'planned' : null);
  return [
    el(
      'table',
      { class: 'matrix' },
      el(
        'thead',
        {},
        el(
          'tr',
          {},
          el('th', { scope: 'col' }, 'No.'),
          matrix.columns.map((column, i) =>
            el('th', { scope: 'col', class: look(i) }, column.hardness, column.devices ? ', devices' : ''),
          ),
        ),
      ),
      el(
        'tbody',
        {},
        matrix.rows.map((row) =>
          el(
            'tr',
            {},
            el('th', { scope: 'row', class: 'strong' }, row.number),
            row.cells.map((cell, i) => el('td', { class: look(i) }, cell)),
          ),
        ),
        el(
          'tr',
          {},
          el('th', { scope: 'row', class: 'strong' }, 'time'),
          matrix.totals.map((total, i) => el('td', { class: look(i) }, total)),
        ),
      ),
    ),
    el('p', {}, matrix.key),
  ];
}

const placeTable = (places: readonly SheetPlace[], more: string) =>
  table(
    'places',
    ['Place', 'At', 'Decimal degrees', 'MGRS', more],
    places.map((place) =>
      el(
        'tr',
        {},
        el('th', { scope: 'row' }, place.name),
        el('td', { class: 'right' }, place.along),
        el('td', { class: 'tight' }, place.decimalDegrees),
        el('td', { class: 'tight' }, place.mgrs),
        el('td', {}, place.more),
      ),
    ),
  );

function whiteoutPart({ title, whiteout }: SheetWay, { declination }: SheetData): MarkupElement {
  return section(
    `Whiteout: ${title}`,
    el('p', {}, `Straight legs; the line lies within ${whiteout.asideText} of them. ${declination}`),
    table(
      'whiteout',
      ['Leg', 'From–to', 'True', 'Magnetic', 'Distance', 'Height'],
      whiteout.legs.map((leg) =>
        el(
          'tr',
          {},
          el('th', { scope: 'row', class: 'strong' }, leg.number),
          el('td', { class: 'tight' }, leg.stretch),
          el('td', { class: 'right strong' }, leg.trueBearing),
          el('td', { class: 'right strong' }, leg.magneticBearing ?? 'not computed'),
          el('td', { class: 'right' }, leg.distance),
          el('td', { class: 'right' }, leg.height),
        ),
      ),
    ),
  );
}
