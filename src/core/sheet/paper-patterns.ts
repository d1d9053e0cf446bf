import { modes } from '../domain/mode';
import { el, type MarkupElement } from './markup';
import { modePattern } from './mode-pattern';

/** The mode patterns in black on white, as definitions with ids `prefix-mode`. */
export function paperPatterns(prefix: string): MarkupElement {
  return el(
    'defs',
    {},
    modes.map((mode) => {
      const { sizePx, strokes, dots } = modePattern[mode];
      return el(
        'pattern',
        { id: `${prefix}-${mode}`, width: sizePx, height: sizePx, patternUnits: 'userSpaceOnUse' },
        el('rect', { width: sizePx, height: sizePx, fill: '#fff' }),
        strokes.map(({ d, widthPx }) =>
          el('path', { d, fill: 'none', stroke: '#000', 'stroke-width': widthPx }),
        ),
        dots.map(({ cx, cy, r }) => el('circle', { cx, cy, r, fill: '#000' })),
      );
    }),
  );
}
