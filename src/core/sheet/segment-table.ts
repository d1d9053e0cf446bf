import { el, type MarkupElement } from './markup';
import type { SheetRow } from './sheet-data';
import { lines, swatch } from './sheet-parts';

/** Heads and the classes of their widths. */
const columns = [
  ['No.', 'number'],
  ['From, height, position', 'place'],
  ['Length, rise, steepest, run-out', 'ground'],
  ['Technique, pieces, gatherings', 'mode'],
  ['Clock, time', 'time'],
  ['Found', 'found'],
] as const;

/** One row for each segment; the last column leaves room to write what was found. */
export function segmentTable(rows: readonly SheetRow[]): MarkupElement {
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
    el('td', {}, lines([`${row.from} at ${row.fromHeight}`, row.fromPosition.join(', '), row.landmark])),
    el('td', {}, lines([`${row.length} ${row.rise}`, row.slope])),
    el(
      'td',
      {},
      swatch(row.mode),
      el('span', { class: 'strong' }, row.modeName),
      row.manner.length === 0 ? '' : `: ${row.manner.join('; ')}`,
      lines([row.gatherings, row.isOtherSnow ? `snow: ${row.snow}` : '']),
      row.note === '' ? [] : el('span', { class: 'line own' }, row.note),
    ),
    el(
      'td',
      {},
      row.clock === '' ? [] : el('span', { class: 'strong' }, `${row.clock} `),
      row.time,
      lines([row.range]),
    ),
    el('td', {}),
  );
