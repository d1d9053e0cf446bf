import { describe, expect, test } from 'vitest';
import { themeNames, themes } from '../../../src/app/look/themes';
import { modeStrip } from '../../../src/app/map/mode-strip';
import { modes, type Mode } from '../../../src/core/domain/mode';

const scale = 4;
/** As wide as the widest strip, and a whole number of every period. */
const widthPx = 18;
const lengthPx = 144;

/** Just enough of a canvas to draw a strip: filled rectangles and discs, in grey. */
class GreyPen {
  fillStyle = '';
  readonly grey = new Float64Array(lengthPx * scale * widthPx * scale).fill(1);
  #discs: [number, number, number][] = [];

  constructor(
    readonly offsetX: number,
    readonly offsetY: number,
  ) {}

  fillRect(x: number, y: number, w: number, h: number): void {
    this.#fill((px, py) => px >= x && px < x + w && py >= y && py < y + h);
  }

  beginPath(): void {
    this.#discs = [];
  }

  arc(x: number, y: number, r: number): void {
    this.#discs.push([x, y, r]);
  }

  fill(): void {
    for (const [x, y, r] of this.#discs) this.#fill((px, py) => Math.hypot(px - x, py - y) < r);
  }

  #fill(isInside: (x: number, y: number) => boolean): void {
    const level = luminance(this.fillStyle);
    for (let row = 0; row < widthPx * scale; row++)
      for (let col = 0; col < lengthPx * scale; col++)
        if (isInside((col + 0.5) / scale - this.offsetX, (row + 0.5) / scale - this.offsetY))
          this.grey[row * lengthPx * scale + col] = level;
  }
}

/**
 * Lightness of a colour, 0 to 1.
 *
 * @source IEC 61966-2-1 (sRGB transfer function and luminance); CIE 15 (L*).
 */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const c = parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  const y = 0.2126 * r + 0.7152 * g + 0.0722 * b;
  return (y > 0.008856 ? 116 * Math.cbrt(y) - 16 : 903.3 * y) / 100;
}

function drawn(mode: Mode, theme: (typeof themeNames)[number]): Float64Array {
  const { periodPx, widthPx: ownPx, draw } = modeStrip[mode];
  const sum = new Float64Array(lengthPx * scale * widthPx * scale).fill(1);
  for (let x = 0; x < lengthPx; x += periodPx) {
    const pen = new GreyPen(x, (widthPx - ownPx) / 2);
    draw(pen as unknown as OffscreenCanvasRenderingContext2D, themes[theme]);
    pen.grey.forEach((level, i) => {
      const col = (i % (lengthPx * scale)) / scale;
      if (col >= x && col < x + periodPx) sum[i] = level;
    });
  }
  return sum;
}

/** Mean difference in lightness where the two differ best: slid along one another, they still differ so much. */
function difference(a: Float64Array, b: Float64Array): number {
  let least = Infinity;
  for (let shift = 0; shift < 16 * scale; shift += scale) {
    let sum = 0;
    for (let row = 0; row < widthPx * scale; row++)
      for (let col = 0; col < lengthPx * scale; col++) {
        const at = row * lengthPx * scale + col;
        const other = row * lengthPx * scale + ((col + shift) % (lengthPx * scale));
        sum += Math.abs((a[at] ?? 0) - (b[other] ?? 0));
      }
    least = Math.min(least, sum / a.length);
  }
  return least;
}

describe.each(themeNames)('the line on the map in %s', (theme) => {
  test('keeps every two modes apart without colour', () => {
    const pictures = new Map(modes.map((mode) => [mode, drawn(mode, theme)]));
    const alike: string[] = [];
    for (const [i, a] of modes.entries())
      for (const b of modes.slice(i + 1)) {
        const [first, second] = [pictures.get(a), pictures.get(b)];
        // Judgement: 6 of 100 in lightness over the whole strip is more than a different width of a pixel gives.
        if (first && second && difference(first, second) < 0.06) alike.push(`${a} and ${b}`);
      }
    expect(alike).toEqual([]);
  });
});
