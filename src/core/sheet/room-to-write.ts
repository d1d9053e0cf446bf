import { el, type MarkupElement } from './markup';
import type { SheetWay } from './sheet-data';
import { section, swatch, table } from './sheet-parts';

/** A line for every segment, to write on the way what was found: for the decision at hand, and for the plan of another day. */
export const roomToWrite = ({ title, rows }: SheetWay): MarkupElement =>
  section(
    `Found, ${title.toLowerCase()}`,
    table(
      'room',
      ['No.', 'Technique', 'Clock', 'Reached', 'Snow found', 'Seen, changed'],
      rows.map(({ number, mode, brief, clock }) =>
        el(
          'tr',
          {},
          el('th', { scope: 'row', class: 'strong' }, number),
          el('td', {}, swatch(mode), brief.code),
          el('td', {}, clock),
          el('td', { class: 'ruled' }),
          el('td', { class: 'ruled' }),
          el('td', { class: 'ruled' }),
        ),
      ),
    ),
  );
