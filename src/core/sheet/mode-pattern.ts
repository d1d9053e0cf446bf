import { modeName, modes, type Mode } from '../domain/mode';

/** Two letters beside every pattern: the third way to tell modes apart, after pattern and colour. */
export const modeCode: Readonly<Record<Mode, string>> = {
  roped: 'RT',
  'running-belay': 'RB',
  'pitched-belay': 'PB',
  'belayed-crossing': 'BC',
  'none-holds': 'NH',
  'no-data': 'ND',
};

/** What the letters mean: `RT roped travel · RB running belay …`. */
export const modeLegend: string = modes.map((mode) => `${modeCode[mode]} ${modeName[mode]}`).join(' · ');

/** A repeating tile, pixels. Strokes are paths with a width, dots are filled discs. */
export interface PatternTile {
  readonly sizePx: number;
  readonly strokes: readonly { readonly d: string; readonly widthPx: number }[];
  readonly dots: readonly { readonly cx: number; readonly cy: number; readonly r: number }[];
}

const none = { strokes: [], dots: [] } as const;

/**
 * One tile per mode, told apart without colour: plain, dots (pieces), crossed lines (ropes to an anchor), double
 * uprights (two lips of a crevasse), heavy bars, sparse specks. Ink covers a growing share in the order of protection.
 */
export const modePattern: Readonly<Record<Mode, PatternTile>> = {
  roped: { sizePx: 8, ...none },
  'running-belay': {
    sizePx: 10,
    strokes: [],
    dots: [
      { cx: 2.5, cy: 2.5, r: 1.6 },
      { cx: 7.5, cy: 7.5, r: 1.6 },
    ],
  },
  'pitched-belay': {
    sizePx: 8,
    strokes: [{ d: 'M0 8 8 0M-1 1 1-1M7 9 9 7M0 0 8 8M-1 7 1 9M7-1 9 1', widthPx: 1.4 }],
    dots: [],
  },
  'belayed-crossing': { sizePx: 12, strokes: [{ d: 'M3 0V12M7 0V12', widthPx: 1.8 }], dots: [] },
  'none-holds': { sizePx: 12, strokes: [{ d: 'M0 0 12 12M-3 9 3 15M9-3 15 3', widthPx: 4.4 }], dots: [] },
  'no-data': {
    sizePx: 14,
    strokes: [],
    dots: [
      { cx: 3.5, cy: 3.5, r: 1.15 },
      { cx: 10.5, cy: 10.5, r: 1.15 },
    ],
  },
};
