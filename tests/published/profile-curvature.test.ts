import { describe, expect, test } from 'vitest';
import { positionOfCell, groundScaleAt } from '../../src/core/ground/ground-scale';
import { profileCurvaturePerM } from '../../src/core/ground/window';
import { makeRaster } from '../core/ground/made-raster';

/**
 * Zevenbergen and Thorne 1987, profile curvature -2 (D G^2 + E H^2 + F G H) / (G^2 + H^2). Signs differ between programs;
 * here positive is convex. Quadratic surfaces come out exactly, so tolerances are those of the arithmetic (1e-9 1/m).
 */
function curvatureOf(surface: (x: number, y: number) => number, cellM: number, turnDeg = 0): number {
  const cos = Math.cos((turnDeg * Math.PI) / 180);
  const sin = Math.sin((turnDeg * Math.PI) / 180);
  // A grid turned against north, about its middle.
  const affine = {
    x0: -1.5 * cellM * (cos - sin),
    y0: 1.5 * cellM * (cos + sin),
    colX: cellM * cos,
    colY: -cellM * sin,
    rowX: -cellM * sin,
    rowY: -cellM * cos,
  };
  const raster = makeRaster({ widthPx: 3, heightPx: 3, cellM, affine }, surface);
  const z = raster.blockInMemory(0, 0)!;
  const nine = [0, 1, 2].flatMap((row) => [0, 1, 2].map((col) => z[row * raster.blockPx + col]!));
  expect(positionOfCell(raster, 1.5, 1.5)[0]).toBeCloseTo(raster.frame.toLngLat([0, 0])[0], 9);
  return profileCurvaturePerM(nine, groundScaleAt(raster, 1.5, 1.5));
}

describe.each([0, 30, 77])('in a grid turned by %d degrees', (turnDeg) => {
  test('a roll-over is convex: z = 3000 + 0.4 y - 0.002 y^2 bends by 0.004 a metre', () => {
    expect(curvatureOf((_, y) => 3000 + 0.4 * y - 0.002 * y * y, 30, turnDeg)).toBeCloseTo(0.004, 6);
  });

  test('a dome of -0.001 (x^2 + y^2) on that slope bends by 0.002', () => {
    expect(curvatureOf((x, y) => 3000 + 0.4 * y - 0.001 * (x * x + y * y), 30, turnDeg)).toBeCloseTo(
      0.002,
      6,
    );
  });
});

test('a run-out into a bowl is concave: negative', () => {
  expect(curvatureOf((_, y) => 3000 + 0.4 * y + 0.002 * y * y, 10)).toBeCloseTo(-0.004, 6);
});

test('level ground has no profile, and is called straight', () => {
  expect(curvatureOf(() => 3000, 10)).toBe(0);
});
