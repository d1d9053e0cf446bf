import type { Mode } from '../domain/mode';
import { el, type MarkupElement } from './markup';

interface Stroke {
  readonly widthPx: number;
  readonly colour: '#000' | '#fff';
  /** Dash lengths; null: unbroken. */
  readonly dash: string | null;
  readonly cap: 'butt' | 'round';
}

const solid = (widthPx: number, colour: Stroke['colour'] = '#000'): Stroke => ({
  widthPx,
  colour,
  dash: null,
  cap: 'butt',
});
const dashed = (widthPx: number, dash: string, colour: Stroke['colour'] = '#000'): Stroke => ({
  widthPx,
  colour,
  dash,
  cap: 'butt',
});
const beads = (widthPx: number, everyPx: number): Stroke => ({
  widthPx,
  colour: '#000',
  dash: `0 ${everyPx}`,
  cap: 'round',
});

/** How each mode's line is drawn in black and white: strokes over each other. */
const strokes: Readonly<Record<Mode, readonly Stroke[]>> = {
  roped: [solid(1.6)],
  'running-belay': [solid(1.8), beads(6.5, 10)],
  'pitched-belay': [solid(3.6), dashed(11, '1.8 7')],
  'belayed-crossing': [solid(6), solid(2.6, '#fff')],
  'none-holds': [solid(7), dashed(4.6, '5 5', '#fff')],
  'no-data': [beads(2.4, 6)],
};

/** One path in a mode's strokes, on a white casing. */
export const modeStrokes = (mode: Mode, d: string): MarkupElement[] =>
  [solid(11, '#fff'), ...strokes[mode]].map(({ widthPx, colour, dash, cap }) =>
    el('path', {
      d,
      fill: 'none',
      stroke: colour,
      'stroke-width': widthPx,
      'stroke-dasharray': dash,
      'stroke-linecap': cap,
      'stroke-linejoin': 'round',
    }),
  );
