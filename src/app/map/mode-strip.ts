import type { Mode } from '../../core/domain/mode';
import type { Theme } from '../look/themes';

/** A repeating piece of a line as it is drawn on the map. CSS pixels. */
export interface ModeStrip {
  readonly periodPx: number;
  readonly widthPx: number;
  readonly draw: (canvas: OffscreenCanvasRenderingContext2D, theme: Theme) => void;
}

type Pen = OffscreenCanvasRenderingContext2D;

function band(pen: Pen, midPx: number, widthPx: number, lengthPx: number, colour: string): void {
  pen.fillStyle = colour;
  pen.fillRect(0, midPx - widthPx / 2, lengthPx, widthPx);
}

function disc(pen: Pen, xPx: number, yPx: number, radiusPx: number, colour: string): void {
  pen.fillStyle = colour;
  pen.beginPath();
  pen.arc(xPx, yPx, radiusPx, 0, 2 * Math.PI);
  pen.fill();
}

/**
 * One strip per mode, told apart without colour by pattern and width: thin and plain; beads; heavy with cross ticks;
 * double; barred; dots. Dark rims keep them readable on snow, light ones on rock.
 */
export const modeStrip: Readonly<Record<Mode, ModeStrip>> = {
  roped: {
    periodPx: 8,
    widthPx: 6,
    draw(pen, { casing, modes }) {
      band(pen, 3, 5, 8, casing);
      band(pen, 3, 3, 8, modes.roped.line);
    },
  },
  'running-belay': {
    periodPx: 18,
    widthPx: 12,
    draw(pen, { casing, modes }) {
      band(pen, 6, 5, 18, casing);
      disc(pen, 9, 6, 5.6, casing);
      band(pen, 6, 3, 18, modes['running-belay'].line);
      disc(pen, 9, 6, 4.4, modes['running-belay'].line);
    },
  },
  'pitched-belay': {
    periodPx: 16,
    widthPx: 18,
    draw(pen, { casing, modes }) {
      band(pen, 9, 10, 16, casing);
      band(pen, 9, 7.5, 16, modes['pitched-belay'].line);
      pen.fillStyle = casing;
      pen.fillRect(6.5, 0, 3, 18);
    },
  },
  'belayed-crossing': {
    periodPx: 8,
    widthPx: 14,
    draw(pen, { casing, paper, modes }) {
      band(pen, 7, 14, 8, casing);
      band(pen, 7, 12, 8, modes['belayed-crossing'].line);
      band(pen, 7, 6, 8, casing);
      band(pen, 7, 4, 8, paper);
    },
  },
  'none-holds': {
    periodPx: 16,
    widthPx: 11,
    draw(pen, { modes }) {
      band(pen, 5.5, 11, 16, modes['none-holds'].line);
      pen.fillStyle = modes['none-holds'].wash;
      pen.fillRect(4, 1.5, 8, 8);
    },
  },
  'no-data': {
    periodPx: 10,
    widthPx: 8,
    draw(pen, { paper, modes }) {
      disc(pen, 5, 4, 4, paper);
      disc(pen, 5, 4, 2.6, modes['no-data'].line);
    },
  },
};

export const stripName = (mode: Mode): string => `mode-${mode}`;

/** The strip as pixels, for the map's pattern images. */
export function stripImage(mode: Mode, theme: Theme, pixelRatio: number): ImageData {
  const { periodPx, widthPx, draw } = modeStrip[mode];
  const canvas = new OffscreenCanvas(periodPx * pixelRatio, widthPx * pixelRatio);
  const pen = canvas.getContext('2d');
  if (!pen) throw new Error('No 2D canvas');
  pen.scale(pixelRatio, pixelRatio);
  draw(pen, theme);
  return pen.getImageData(0, 0, canvas.width, canvas.height);
}
