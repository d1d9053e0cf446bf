import { el, type MarkupElement } from './markup';
import type { SheetData, SheetMatrix, SheetRow, SheetWay } from './sheet-data';
import {
  facts,
  list,
  patternStore,
  rescueBox,
  section,
  smallerFindings,
  swatch,
  table,
  warningList,
} from './sheet-parts';

/** The sheet for a pocket, A6: the same words without drawings, one column, to be turned page by page. */
export function pocketBody(sheet: SheetData): MarkupElement {
  return el(
    'article',
    { class: 'sheet pocket', lang: 'en' },
    patternStore(),
    el('h1', {}, sheet.title),
    el('p', {}, sheet.lineName, sheet.made === '' ? '' : `, made ${sheet.made}`),
    el('p', { class: 'headline' }, sheet.headline, sheet.headlineNote === '' ? '' : ` ${sheet.headlineNote}`),
    facts(sheet.totals),
    warningList(sheet.warnings),
    sheet.ways.map((way) => section(way.title, ...way.rows.map(step))),
    sheet.matrix === null
      ? section('Other snow', el('p', {}, 'Not computed: this sheet holds for the planned snow only.'))
      : section('Other snow', matrixTable(sheet.matrix), el('p', {}, sheet.matrix.key)),
    sheet.crossings.length === 0
      ? []
      : section(
          'Crossings',
          list(
            sheet.crossings.map((one) => `${one.name} at ${one.along}: ${one.decimalDegrees}; ${one.more}`),
          ),
        ),
    sheet.ways.map((way) => bearings(way, sheet.declination)),
    section(
      'Places to be found at',
      list(sheet.places.map((one) => `${one.name}, ${one.along}: ${one.decimalDegrees}; ${one.mgrs}`)),
    ),
    rescueBox(sheet),
    section('Team and rack', facts(sheet.team)),
    section('What it rests on', facts(sheet.sources), list(sheet.assumptions)),
    sheet.ownNotes === '' ? [] : section('Notes', el('p', {}, sheet.ownNotes)),
    ...smallerFindings(sheet.warnings),
    section('Cautions', list(sheet.cautions)),
  );
}

const step = (row: SheetRow): MarkupElement =>
  el(
    'div',
    { class: 'step' },
    el('span', { class: 'strong' }, `${row.number}  `),
    swatch(row.mode),
    el('span', { class: 'strong' }, row.modeName),
    row.manner.length === 0 ? '' : `: ${row.manner.join('; ')}`,
    el(
      'span',
      { class: 'line' },
      [
        `from ${row.from}`,
        row.length,
        row.rise,
        `${row.steepest} ${row.facing}`,
        `run-out ${row.runOut}`,
        row.snow,
      ].join(', '),
    ),
    el(
      'span',
      { class: 'line' },
      `start ${row.fromPosition.join(', ')}`,
      row.landmark === '' ? '' : `; ${row.landmark}`,
    ),
    el(
      'span',
      { class: 'line' },
      [
        row.clock === '' ? '' : `at ${row.clock}`,
        `${row.time}${row.range === '' ? '' : ` (${row.range})`}`,
        row.gatherings,
      ]
        .filter((words) => words !== '')
        .join('; '),
    ),
    row.note === '' ? [] : el('span', { class: 'line strong' }, row.note),
  );

/** Only the columns with the rack that is planned for: twelve would not fit. */
function matrixTable(matrix: SheetMatrix): MarkupElement {
  const devices = matrix.columns.find((column) => column.isPlanned)?.devices ?? false;
  const kept = matrix.columns.flatMap((column, i) => (column.devices === devices ? [i] : []));
  const heads = ['No.', ...kept.map((i) => matrix.columns[i]?.hardness ?? '')];
  const row = (head: string, cells: readonly string[]) =>
    el(
      'tr',
      {},
      el('th', { scope: 'row', class: 'strong' }, head),
      kept.map((i) =>
        el('td', { class: matrix.columns[i]?.isPlanned === true ? 'planned' : null }, cells[i] ?? ''),
      ),
    );
  return table('matrix', heads, [
    ...matrix.rows.map(({ number, cells }) => row(number, cells)),
    row('time', matrix.totals),
  ]);
}

const bearings = ({ title, whiteout }: SheetWay, declination: string): MarkupElement =>
  section(
    `Whiteout: ${title}`,
    el('p', {}, `Straight legs; the line lies within ${whiteout.asideText} of them. ${declination}`),
    table(
      'whiteout',
      ['Leg', 'To', 'True', 'Magnetic', 'Distance', 'Height'],
      whiteout.legs.map((leg) =>
        el(
          'tr',
          {},
          el('th', { scope: 'row' }, leg.number),
          el('td', { class: 'tight' }, leg.stretch.split('–').at(-1) ?? ''),
          el('td', { class: 'strong' }, leg.trueBearing),
          el('td', { class: 'strong' }, leg.magneticBearing ?? '—'),
          el('td', { class: 'right' }, leg.distance),
          el('td', { class: 'right' }, leg.height),
        ),
      ),
    ),
  );
