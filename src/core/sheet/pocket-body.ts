import { el, type MarkupElement } from './markup';
import { clockStrip, matrixSection } from './sheet-body';
import type { SheetData, SheetRow, SheetWay } from './sheet-data';
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

/** The sheet for a pocket, A6: the same words and the map, one column, to be turned page by page. */
export function pocketBody(sheet: SheetData): MarkupElement {
  return el(
    'article',
    { class: 'sheet pocket', lang: 'en' },
    patternStore(),
    el('h1', {}, sheet.title),
    el('p', {}, sheet.made === '' ? '' : `made ${sheet.made}, `, `state ${sheet.state}`),
    el('p', { class: 'headline' }, sheet.headline, sheet.headlineNote === '' ? '' : ` ${sheet.headlineNote}`),
    clockStrip(sheet.clock),
    facts(sheet.totals),
    warningList(sheet.warnings),
    sheet.ways.map((way) => section(way.title, ...way.rows.map(step))),
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
    sheet.ways.map((way) => bearings(way, sheet.declination)),
    sheet.ways.map(({ title, places }) =>
      section(
        `Places to be found at: ${title}`,
        list(places.map((one) => `${one.name}, ${one.along}: ${one.decimalDegrees}; ${one.mgrs}`)),
      ),
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
