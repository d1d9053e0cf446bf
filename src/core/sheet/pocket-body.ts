import { el, type MarkupElement } from './markup';
import { modeLegend } from './mode-pattern';
import { clockStrip } from './sheet-body';
import type { SheetData, SheetMatrix, SheetRow, SheetWay } from './sheet-data';
import { matrixKey } from './sheet-matrix';
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
import { whiteoutSection } from './whiteout-section';

/** The sheet for a pocket, A6: the same words and the map, one column, to be turned page by page. */
export function pocketBody(sheet: SheetData): MarkupElement {
  return el(
    'article',
    { class: 'sheet pocket', lang: 'en' },
    patternStore(),
    el('h1', {}, sheet.title),
    el('p', {}, sheet.made === '' ? '' : `made ${sheet.made}, `, `state ${sheet.state}`),
    clockStrip(sheet.clock),
    warningList(sheet.warnings),
    sheet.ways.map((way) =>
      section(way.title, el('p', {}, `${way.summary.join('; ')}.`), ...way.rows.map(step)),
    ),
    sheet.ways.map((way, i) => matrixSection(way, i === 0)),
    sheet.ways.flatMap(({ title, pocketMap }) =>
      pocketMap === null ? [] : [section(`Map: ${title}`, pocketMap)],
    ),
    sheet.crossings.length === 0
      ? []
      : section(
          'Crossings',
          list(
            sheet.crossings.map((one) => `${one.name} at ${one.along}: ${one.decimalDegrees}; ${one.more}`),
          ),
        ),
    sheet.ways.map((way) => whiteoutSection(way, sheet.declination)),
    section(
      'To be found at',
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
      [`from ${row.from} at ${row.fromHeight}`, row.length, row.rise, row.slope, row.snow].join(', '),
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

/** The technique under every snow; what the letters mean is said under the first. */
const matrixSection = ({ title, matrix }: SheetWay, isFirst: boolean): MarkupElement =>
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
        ...(isFirst ? [el('p', { class: 'whole' }, `${modeLegend}. ${matrixKey}`)] : []),
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
