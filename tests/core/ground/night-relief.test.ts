import { expect, test } from 'vitest';
import { nightInks, paperInks, shadePixels } from '../../../src/core/ground/relief-colours';
import { pixelKind, type ReliefPixels } from '../../../src/core/ground/relief-sample';

/** Level; facing the north-west, where the light comes from; facing away from it; a hole; what is not drawn. */
const pixels = {
  sizePx: 5,
  kinds: Uint8Array.of(
    pixelKind.ground,
    pixelKind.ground,
    pixelKind.ground,
    pixelKind.hole,
    pixelKind.nothing,
  ),
  gradE: Float32Array.of(0, 0.5, -0.5, NaN, NaN),
  gradN: Float32Array.of(0, -0.5, 0.5, NaN, NaN),
} as unknown as ReliefPixels;
const alphas = (rgba: Uint8ClampedArray) => [3, 7, 11, 15, 19].map((at) => rgba[at]!);
const colour = (rgba: Uint8ClampedArray, i: number) => [...rgba.slice(4 * i, 4 * i + 3)];

test('by day the lit side is paper, shadow is ink, level ground is clear', () => {
  const rgba = shadePixels(pixels, paperInks);
  const [level, lit, shadow, hole, nothing] = alphas(rgba);
  expect(level).toBe(0);
  expect(colour(rgba, 1)).toEqual([...paperInks.light]);
  expect(colour(rgba, 2)).toEqual([...paperInks.shadow]);
  expect(Math.min(lit!, shadow!, hole!)).toBeGreaterThan(0);
  expect(nothing).toBe(0);
});

test('by night only light is drawn: most on the lit side, some on level ground, least in the shadow', () => {
  const rgba = shadePixels(pixels, nightInks);
  const [level, lit, shadow] = alphas(rgba);
  for (const i of [0, 1]) expect(colour(rgba, i)).toEqual([...nightInks.light]);
  expect(lit).toBeGreaterThan(level!);
  expect(level).toBeGreaterThan(shadow!);
});
