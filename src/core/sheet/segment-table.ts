import { el, type Markup, type MarkupElement } from './markup';
import type { SheetMatrix, SheetRow, SheetWay } from './sheet-data';
import { swatch } from './sheet-parts';
import { notComputedBrief } from '../wording/numbers';

/**
 * Every way in one table: heads are said once and come again on every page. Each segment is a group of its own, its figures
 * in one row and, where there is more to say than a technique without pieces, how it is done in a second one.
 */
export function segmentTable(ways: readonly SheetWay[], units: LengthUnits): MarkupElement {
  const matrix = ways.find((way) => way.matrix !== null)?.matrix ?? null;
  return el(
    'table',
    { class: 'segments' },
    el('thead', {}, heads(ways, matrix, units)),
    ways.flatMap((way) => [
      el('tbody', { class: 'way' }, wayRow(way, matrix)),
      ...way.rows.map((row, i) => segmentGroup(row, way.matrix, matrix, i)),
    ]),
  );
}

/** What lengths are counted in, for the heads. */
export interface LengthUnits {
  readonly long: string;
  readonly short: string;
}

function heads(
  ways: readonly SheetWay[],
  matrix: SheetMatrix | null,
  { long, short }: LengthUnits,
): Markup[] {
  const squares = new Set(ways.map(({ square }) => square));
  const [square = null] = squares.size === 1 ? squares : [];
  const over = matrix === null ? {} : { rowspan: 2 };
  const head = (...words: string[]) =>
    el(
      'th',
      { scope: 'col', ...over },
      words.flatMap((line, i) => (i === 0 ? [line] : [el('br'), line])),
    );
  return [
    el(
      'tr',
      {},
      head('No.'),
      head('From', long),
      head('Height', short),
      head('Grid', square ?? ''),
      head('Length', short),
      head('Rise', short),
      head('Steepest,', 'run-out'),
      head('Technique, pieces,', 'gatherings'),
      head('Clock'),
      head('Minutes,', 'range'),
      matrix === null
        ? []
        : el('th', { scope: 'colgroup', colspan: matrix.columns.length, class: 'other' }, 'In other snow'),
    ),
    ...(matrix === null
      ? []
      : [
          el(
            'tr',
            {},
            matrix.columns.map(({ symbol, hardness, isPlanned }) =>
              el('th', { scope: 'col', abbr: hardness, class: isPlanned ? 'planned' : null }, symbol),
            ),
          ),
        ]),
  ];
}

const ownColumns = 10;

/** The way's name and totals over its rows, with the hours for all of it in other snow. */
function wayRow({ title, summary, matrix }: SheetWay, shown: SheetMatrix | null): MarkupElement {
  const [time = '', ...rest] = summary;
  const others =
    matrix === null
      ? []
      : matrix.columns.flatMap(({ symbol, isPlanned }, i) =>
          isPlanned ? [] : [`${symbol} ${matrix.totals[i]!}`],
        );
  const words = [...rest, others.length === 0 ? '' : `hours in other snow: ${others.join(', ')}`];
  return el(
    'tr',
    {},
    el(
      'th',
      { scope: 'rowgroup', colspan: ownColumns + (shown?.columns.length ?? 0) },
      el('span', { class: 'strong' }, `${title}: ${time}`),
      `; ${words.filter((each) => each !== '').join('; ')}`,
    ),
  );
}

function segmentGroup(
  row: SheetRow,
  matrix: SheetMatrix | null,
  shown: SheetMatrix | null,
  i: number,
): MarkupElement {
  const { brief } = row;
  const said = saidOf(row);
  const isShort = row.note === '' && said.length <= shortChars;
  const cells = shown?.columns ?? [];
  return el(
    'tbody',
    { class: 'segment' },
    el(
      'tr',
      {},
      el('th', { scope: 'row', class: 'strong', rowspan: isShort ? null : 2 }, row.number),
      el('td', {}, brief.from),
      el('td', {}, brief.fromHeight),
      el('td', {}, brief.grid),
      el('td', { class: 'apart' }, brief.length),
      el('td', {}, brief.rise),
      el('td', { class: 'apart' }, `${brief.slope} ${brief.runOut}`),
      el(
        'td',
        { class: 'how' },
        swatch(row.mode),
        el('span', { class: 'strong' }, brief.code),
        isShort && said !== '' ? ` ${said}` : '',
      ),
      el('td', { class: 'strong' }, row.clock),
      el('td', { class: 'apart' }, el('span', { class: 'strong' }, brief.minutes), ` ${brief.minutesRange}`),
      cells.map(({ isPlanned }, k) =>
        el('td', { class: isPlanned ? 'planned' : null }, matrix?.rows[i]?.cells[k] ?? notComputedBrief),
      ),
    ),
    isShort
      ? []
      : el(
          'tr',
          {},
          el(
            'td',
            { class: 'said', colspan: ownColumns - 1 + cells.length },
            said,
            ...(row.note === '' ? [] : [' ', el('span', { class: 'own' }, row.note)]),
          ),
        ),
  );
}

/** So much finds room beside a technique's letters. */
const shortChars = 36;

/** Pieces and how they are set, gatherings, crossings, other snow, own notes. */
const saidOf = (row: SheetRow): string =>
  [
    ...row.brief.manner,
    row.brief.gatherings,
    row.seen === '' ? row.landmark : row.seen,
    row.isOtherSnow ? `snow: ${row.snow}` : '',
  ]
    .filter((words) => words !== '')
    .join('; ');
