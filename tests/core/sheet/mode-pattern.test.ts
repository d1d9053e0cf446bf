import { expect, test } from 'vitest';
import { modes, type Mode } from '../../../src/core/domain/mode';
import { modePattern } from '../../../src/core/sheet/mode-pattern';

const sidePx = 120;

/** Ink of a pattern on a square field, sampled in the middle of every pixel. */
function ink(mode: Mode): boolean[] {
  const { sizePx, strokes, dots } = modePattern[mode];
  const lines = strokes.flatMap(({ d, widthPx }) => segmentsOf(d).map((line) => ({ ...line, widthPx })));
  return Array.from({ length: sidePx * sidePx }, (_, i) => {
    const [x, y] = [((i % sidePx) + 0.5) % sizePx, (Math.floor(i / sidePx) + 0.5) % sizePx];
    return (
      dots.some(({ cx, cy, r }) => Math.hypot(x - cx, y - cy) <= r) ||
      lines.some(({ widthPx, ...line }) => distancePx(line, x, y) <= widthPx / 2)
    );
  });
}

interface Line {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Straight lines of a path of M, V and implied L. */
function segmentsOf(d: string): Line[] {
  return [...d.matchAll(/M(-?[\d.]+) ?(-?[\d.]+)(?:V(-?[\d.]+)| (-?[\d.]+) ?(-?[\d.]+))/g)].map((found) => {
    const [x0, y0, v, x1, y1] = found.slice(1).map(Number) as [number, number, number, number, number];
    return Number.isNaN(v) ? { x0, y0, x1, y1 } : { x0, y0, x1: x0, y1: v };
  });
}

function distancePx({ x0, y0, x1, y1 }: Line, x: number, y: number): number {
  const [dx, dy] = [x1 - x0, y1 - y0];
  const t = Math.max(0, Math.min(1, ((x - x0) * dx + (y - y0) * dy) / (dx * dx + dy * dy)));
  return Math.hypot(x - x0 - t * dx, y - y0 - t * dy);
}

const fields = Object.fromEntries(modes.map((mode) => [mode, ink(mode)])) as Record<Mode, boolean[]>;
const share = (mode: Mode) => fields[mode].filter(Boolean).length / fields[mode].length;

test('without any colour no two patterns are alike: a tenth of their field differs, or how much of it is inked', () => {
  for (const [i, a] of modes.entries()) {
    for (const b of modes.slice(i + 1)) {
      const differing = fields[a].filter((isInk, k) => isInk !== fields[b][k]).length / fields[a].length;
      if (a === 'roped' && b === 'no-data') expect(differing).toBeGreaterThan(0.015);
      else expect(differing, `${a} and ${b}`).toBeGreaterThan(0.1);
    }
  }
});

test('more protection, more ink', () => {
  expect(share('roped')).toBe(0);
  expect(share('running-belay')).toBeGreaterThan(0.1);
  expect(share('pitched-belay')).toBeGreaterThan(share('running-belay'));
  expect(share('none-holds')).toBeGreaterThan(share('pitched-belay'));
  expect(share('no-data')).toBeLessThan(share('running-belay') / 2);
});
