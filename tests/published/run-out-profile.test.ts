import { expect, test } from 'vitest';
import { defaultFigures, type Figures } from '../../src/core/assumptions/figures';
import { hardnesses } from '../../src/core/domain/snow';
import type { RunOutTrace } from '../../src/core/domain/station';
import { traceRunOut } from '../../src/core/ground/run-out';
import { makeRaster } from '../core/ground/made-raster';

/**
 * Sliding block on a profile of three planes, from rest, v^2 += 2 g (sin - mu cos) ds with g = 9.80665 m/s^2 (energy
 * line, Heim 1932): 100 m at 40 degrees, 60 m at 25, then 10 degrees without end. Closed form, recomputed:
 * mu 0.1: 42.379 m/s after 200 m of the last plane; 0.2: 33.953; 0.3: stops after 413.33 m; 0.4: stops after 169.07 m.
 * Speeds at the two kinks: 33.324, 38.745 / 30.988, 35.274 / 28.460, 31.422 / 25.685, 27.027 m/s.
 *
 * Tolerance: cells of 1 m round the kinks off (some centimetres of height), and steps are half a metre long: 0.3 m of 329 m
 * and 0.05 m/s.
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

async function slide(mu: number, rasters = [raster]): Promise<RunOutTrace> {
  const [straight] = await traceRunOut({
    position: start,
    hardness: 'P',
    rasters,
    marks: [],
    figures: withFriction(mu),
  });
  return straight!;
}

test.each([
  { mu: 0.4, lastM: 169.07, fastest: 27.027 },
  { mu: 0.3, lastM: 413.33, fastest: 31.422 },
])('with friction $mu a slide stops $lastM m out on the last plane', async ({ mu, lastM, fastest }) => {
  const trace = await slide(mu);
  expect(trace.ending).toBe('stops');
  expect(Math.abs(trace.lengthM - 160 - lastM)).toBeLessThan(0.3);
  expect(Math.abs(trace.maxSpeedMS - fastest)).toBeLessThan(0.05);
});

/** The raster ends after 200 m of the last plane: how fast the slide is there. A metre more or less is worth 0.02 m/s. */
test.each([
  { mu: 0.1, speedMS: 42.379 },
  { mu: 0.2, speedMS: 35.274 },
  { mu: 0.3, speedMS: 31.422 },
])('with friction $mu the fastest up to 200 m of the last plane is $speedMS m/s', async ({ mu, speedMS }) => {
  const toM = [100, 60, 200].reduce(
    (sum, lengthM, i) => sum + lengthM * Math.cos(planes[i]!.slopeDeg * rad),
    0,
  );
  const widthPx = Math.round(100 + toM + 1);
  const short = makeRaster(
    { widthPx, heightPx: 41, cellM: 1, affine: { ...raster.affine, x0: -550, colX: 1 } },
    (x) => profileM(x + 450),
  );
  const trace = await slide(mu, [short]);
  expect(trace.ending).toBe('edge');
  expect(Math.abs(trace.maxSpeedMS - speedMS)).toBeLessThan(0.1);
});

/** 60 m at 35 degrees, 40 m at 15, then flat, friction 0.25: 21.156 m/s at the flat, and 91.28 m out on it. */
test('on the flat a slide goes straight on and stops 91.28 m out', async () => {
  const heightM = (x: number): number => {
    const [a, b] = [60 * Math.cos(35 * rad), 40 * Math.cos(15 * rad)];
    if (x <= a) return 2000 - x * Math.tan(35 * rad);
    const z = 2000 - a * Math.tan(35 * rad);
    return x <= a + b ? z - (x - a) * Math.tan(15 * rad) : z - b * Math.tan(15 * rad);
  };
  const flat = makeRaster({ widthPx: 1000, heightPx: 41, cellM: 1 }, (x) => heightM(x + 450));
  const trace = await slide(0.25, [flat]);
  expect(trace.ending).toBe('stops');
  expect(Math.abs(trace.maxSpeedMS - 21.156)).toBeLessThan(0.05);
  expect(Math.abs(trace.lengthM - 100 - 91.28)).toBeLessThan(0.4);
});
