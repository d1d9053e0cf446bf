import { expect, test } from 'vitest';
import { defaultFigures, type Figures } from '../../src/core/assumptions/figures';
import { hardnesses } from '../../src/core/domain/snow';
import { traceRunOut } from '../../src/core/ground/run-out';
import { makeRaster } from '../core/ground/made-raster';

/**
 * Sliding block on a profile of three planes, from rest, v^2 += 2 g (sin - mu cos) ds with g = 9.80665 m/s^2 (energy
 * line, Heim 1932): 100 m at 40 degrees, 60 m at 25, then 10 degrees without end. Closed form, recomputed:
 * mu 0.1: 42.379 m/s after 200 m of the last plane; 0.2: 33.953; 0.3: stops after 413.33 m; 0.4: stops after 169.07 m.
 * Speeds at the two kinks: 33.324, 38.745 / 30.988, 35.274 / 28.460, 31.422 / 25.685, 27.027 m/s.
 *
 * Tolerance: the raster's cells round the two kinks off (0.02 m of height at 1 m cells), steps end within 0.5 m: 0.3 m of
 * 329 m, and 0.02 m/s.
 */
const rad = Math.PI / 180;
const planes = [
  { lengthM: 100, slopeDeg: 40 },
  { lengthM: 60, slopeDeg: 25 },
  { lengthM: 800, slopeDeg: 10 },
];

/** Elevation at a horizontal distance down the profile; the first plane goes on upwards beyond the start. */
function profileM(alongM: number): number {
  let z = 3000;
  let x = 0;
  for (const { lengthM, slopeDeg } of planes) {
    const widthM = lengthM * Math.cos(slopeDeg * rad);
    if (alongM <= x + widthM) return z - (alongM - x) * Math.tan(slopeDeg * rad);
    x += widthM;
    z -= widthM * Math.tan(slopeDeg * rad);
  }
  return z - (alongM - x) * Math.tan(10 * rad);
}

const withFriction = (mu: number): Figures => ({
  ...defaultFigures,
  snow: Object.fromEntries(
    hardnesses.map((hardness) => [
      hardness,
      {
        ...defaultFigures.snow[hardness],
        muSliding: { low: mu, mode: mu, high: mu },
        muArresting: { low: mu, mode: mu, high: mu },
      },
    ]),
  ) as Figures['snow'],
});

const raster = makeRaster({ widthPx: 1000, heightPx: 41, cellM: 1 }, (x) => profileM(x + 450));
const start = raster.frame.toLngLat([-450, 0]);

test.each([
  { mu: 0.4, lastM: 169.07, fastest: 27.027 },
  { mu: 0.3, lastM: 413.33, fastest: 31.422 },
])('with friction $mu a slide stops $lastM m out on the last plane', async ({ mu, lastM, fastest }) => {
  const [straight] = await traceRunOut({
    position: start,
    hardness: 'P',
    rasters: [raster],
    marks: [],
    figures: withFriction(mu),
  });
  expect(straight!.ending).toBe('stops');
  expect(Math.abs(straight!.lengthM - 160 - lastM)).toBeLessThan(0.3);
  expect(Math.abs(straight!.maxSpeedMS - fastest)).toBeLessThan(0.05);
});
