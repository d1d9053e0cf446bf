import { el, type MarkupElement } from './markup';
import type { SheetWay } from './sheet-data';
import { section, table } from './sheet-parts';
import { notComputedBrief } from '../wording/numbers';

/** Straight legs to walk by compass when nothing can be seen. */
export const whiteoutSection = ({ title, whiteout }: SheetWay, declination: string): MarkupElement =>
  section(
    `Whiteout: ${title}`,
    el('p', {}, `Straight legs; the line lies within ${whiteout.asideText} of them. ${declination}`),
    table(
      'whiteout',
      ['Leg', 'To', 'True', 'Magnetic', { right: 'Distance' }, { right: 'Height' }],
      whiteout.legs.map((leg) =>
        el(
          'tr',
          {},
          el('th', { scope: 'row' }, leg.number),
          el('td', { class: 'tight' }, leg.stretch.split('–').at(-1)!),
          el('td', { class: 'strong' }, leg.trueBearing),
          el('td', { class: 'strong' }, leg.magneticBearing ?? notComputedBrief),
          el('td', { class: 'right' }, leg.distance),
          el('td', { class: 'right' }, leg.height),
        ),
      ),
    ),
  );
