import { modes, type Mode } from '../domain/mode';
import { el, type Markup, type MarkupElement } from './markup';
import { modeStrokes } from './map-strokes';
import { modeCode } from './mode-pattern';
import { paperPatterns } from './paper-patterns';
import type { Fact, SheetData, SheetRow } from './sheet-data';

/** Where the swatches' patterns are: once on every sheet. */
export const patternStore = (): MarkupElement =>
  el('svg', { width: 0, height: 0, 'aria-hidden': 'true', class: 'store' }, paperPatterns('sheet-key'));

export const section = (title: string, ...children: readonly Markup[]) =>
  el('section', {}, el('h2', {}, title), ...children);

export const facts = (all: readonly Fact[]) =>
  el(
    'dl',
    { class: 'facts' },
    all.flatMap(({ label, text }) => [el('dt', {}, label), el('dd', {}, text)]),
  );

export const list = (lines: readonly string[]) =>
  el(
    'ul',
    {},
    lines.map((line) => el('li', {}, line)),
  );

/** What must be heeded, on the front. */
export function warningList(warnings: SheetData['warnings']): MarkupElement {
  const heavy = warnings.filter(({ isFront }) => isFront);
  if (heavy.length === 0) {
    const found = warnings.length === 0 ? 'No finding in these data.' : 'Only smaller findings.';
    return section('Warnings', el('p', {}, `${found} That does not say that nothing is wrong.`));
  }
  return section(
    'Warnings, heaviest first',
    el(
      'ul',
      { class: 'warnings' },
      heavy.map(({ weight, text, place }) =>
        el('li', { class: weight === 3 ? 'grave' : 'heed' }, text, place === '' ? '' : ` (${place})`),
      ),
    ),
  );
}

/** All that does not stand on the front. */
export function smallerFindings(warnings: SheetData['warnings']): MarkupElement[] {
  const small = warnings.filter(({ isFront }) => !isFront);
  if (small.length === 0) return [];
  const words = small.map(({ text, place }) => (place === '' ? text : `${text} (${place})`));
  return [section('Smaller findings', list(words))];
}

export const swatch = (mode: Mode) =>
  el(
    'svg',
    { class: 'swatch', viewBox: '0 0 32 16', 'aria-hidden': 'true' },
    el('rect', { x: 0.5, y: 0.5, width: 31, height: 15, fill: `url(#sheet-key-${mode})`, stroke: '#000' }),
  );

/** Every mode that is there as field of the ribbon and as stroke of the map; then the signs. */
export const legend = (rows: readonly SheetRow[]): MarkupElement =>
  el(
    'p',
    { class: 'key' },
    modes
      .filter((mode) => rows.some((row) => row.mode === mode))
      .flatMap((mode) => [
        el(
          'span',
          {},
          swatch(mode),
          el(
            'svg',
            { class: 'stroke', viewBox: '0 0 26 12', 'aria-hidden': 'true' },
            modeStrokes(mode, 'M2 6h22'),
          ),
          modeCode[mode],
        ),
        ' ',
      ]),
    signs.flatMap((sign) => [el('span', {}, sign), ' ']),
  );

const signs = ['❘ piece', '‖ crossing', '× mark', '▲ gathering, stance'];

export function table(
  className: string,
  /** Over figures that end in line: `{ right }`. */
  heads: readonly (string | { readonly right: string })[],
  rows: readonly MarkupElement[],
): MarkupElement {
  return el(
    'table',
    { class: className },
    el(
      'thead',
      {},
      el(
        'tr',
        {},
        heads.map((head) =>
          typeof head === 'string'
            ? el('th', { scope: 'col' }, head)
            : el('th', { scope: 'col', class: 'right' }, head.right),
        ),
      ),
    ),
    el('tbody', {}, rows),
  );
}

export const rescueBox = (sheet: SheetData): MarkupElement =>
  el(
    'section',
    { class: 'rescue' },
    el('h2', {}, 'Rescue: numbers differ by country, fill in and check'),
    el(
      'div',
      { class: 'numbers' },
      sheet.rescueNumbers.map((label) => el('p', {}, `${label} `, el('span', { class: 'blank' }, '\u00a0'))),
    ),
    list(sheet.signals),
  );
