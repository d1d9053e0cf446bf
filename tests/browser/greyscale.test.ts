import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, test } from 'vitest';
import type { Mode } from '../../src/core/domain/mode';
import { dropTexts, settled } from './gestures';
import { inBrowser } from './harness';
import { pixels, type Pixels } from './pixels';

const demo = resolve(import.meta.dirname, '../../public/demo/ombry.firnward.json');
const kinds: readonly Mode[] = ['roped', 'running-belay', 'pitched-belay', 'belayed-crossing', 'none-holds'];
/** A straight line over the demo's lower glacier, level with the screen, a fifth of it in each mode. */
const [west, east, lat] = [-21.392, -21.366, -48.493];
const lengthM = 1920;
const [reachPx, stripPx] = [14, 44];

/** Brightness of a pixel as a black and white printer sees it, 0 to 255 (ITU-R BT.601 luma). */
const grey = ({ rgba, widthPx }: Pixels, x: number, y: number): number => {
  const at = 4 * (y * widthPx + x);
  return 0.299 * (rgba[at] ?? 0) + 0.587 * (rgba[at + 1] ?? 0) + 0.114 * (rgba[at + 2] ?? 0);
};

inBrowser('in grey', (harness) => {
  test('five modes are told apart on the map by what is drawn, in every theme', async () => {
    const open = await harness.open({ width: 1280, height: 800 });
    const { page } = open;
    await settled(page);
    const project = JSON.parse(readFileSync(demo, 'utf8')) as Record<string, unknown>;
    const points = [west, (west + east) / 2, east].map((lng) => ({
      position: [lng, lat],
      elevationM: null,
      timeMs: null,
    }));
    const overrides = kinds.map((mode, i) => ({
      id: `o${i}`,
      fromM: (i * lengthM) / 5,
      toM: i === 4 ? lengthM + 5 : ((i + 1) * lengthM) / 5,
      mode,
      snow: null,
      runOut: null,
      note: '',
    }));
    await dropTexts(page, {
      'grey.firnward.json': JSON.stringify({
        ...project,
        line: { id: 'level', name: 'Level', points },
        alternatives: [],
        marks: [],
        overrides,
      }),
    });
    await page.locator('.ledger').getByText('none holds').first().waitFor();
    await settled(page);
    const plot = page.getByRole('slider', { name: 'Place along the line' });
    for (const theme of ['day', 'glare', 'night']) {
      await page.getByLabel('Theme').selectOption(theme);
      // Without contours, which cross the line anywhere.
      await page.waitForTimeout(2500);
      const spots: { x: number; y: number }[] = [];
      const box = await plot.boundingBox();
      const map = await page.locator('.maplibregl-canvas').boundingBox();
      if (!box || !map) throw new Error('Not shown');
      for (const i of kinds.keys()) {
        // Beside the middle, where the number stands.
        const share = (i + 0.32) / 5;
        await page.mouse.move(box.x + 58 + share * (box.width - 98), box.y + 50);
        const at = await page.locator('.map .cursor').boundingBox();
        if (!at) throw new Error('No cursor');
        spots.push({
          x: Math.round(at.x + at.width / 2 - map.x),
          y: Math.round(at.y + at.height / 2 - map.y),
        });
      }
      await page.mouse.move(5, 5);
      const picture = pixels(await page.locator('.maplibregl-canvas').screenshot());
      const strips = spots.map(({ x, y }) =>
        Array.from({ length: 2 * reachPx + 1 }, (_, row) =>
          Array.from({ length: stripPx }, (_, col) =>
            grey(picture, x - stripPx / 2 + col, y - reachPx + row),
          ),
        ),
      );
      for (const [i, a] of strips.entries())
        for (const [j, b] of strips.entries())
          if (i < j) expect(apart(a, b), `${theme}: ${kinds[i]} and ${kinds[j]}`).toBeGreaterThan(12);
    }
    await open.close();
  });
});

/**
 * How far two strips are apart: the mean difference of brightness over the rows across the line, of their mean and of how much
 * each varies along it. A pattern counts wherever it begins.
 */
function apart(a: readonly (readonly number[])[], b: readonly (readonly number[])[]): number {
  const rows = a.map((row, i) => {
    const [p, q] = [spread(row), spread(b[i] ?? [])];
    return Math.hypot(p.mean - q.mean, p.deviation - q.deviation);
  });
  return rows.reduce((sum, each) => sum + each, 0) / rows.length;
}

function spread(values: readonly number[]): { readonly mean: number; readonly deviation: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
  return { mean, deviation: Math.sqrt(square) };
}
