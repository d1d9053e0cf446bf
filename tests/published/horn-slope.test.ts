import { describe, expect, test } from 'vitest';
import type { GroundScale } from '../../src/core/ground/ground-scale';
import { downhillDegOf, hornGradient, slopeDegOf } from '../../src/core/ground/window';

/** A square cell with its rows to the north. */
function squareCell(cellM: number): GroundScale {
  return {
    eastPerCol: cellM,
    northPerCol: 0,
    eastPerRow: 0,
    northPerRow: -cellM,
    colPerEast: 1 / cellM,
    colPerNorth: 0,
    rowPerEast: 0,
    rowPerNorth: -1 / cellM,
  };
}

/**
 * Published worked examples: the help topics "How Slope works" and "How Aspect works" of a GIS vendor (method after
 * P.A. Burrough and R.A. McDonnell, "Principles of Geographical Information Systems", 1998), 3 x 3 windows. The page prints
 * 75.25762 for the first; it multiplies by the truncated 57.29578 and a rounded rise over run, hence 1e-4 degrees. The
 * aspect's figures are exact to the two decimals printed.
 */
describe('the published 3 x 3 examples', () => {
  test.each([
    {
      z: [50, 45, 50, 30, 30, 30, 8, 10, 10],
      cellM: 5,
      slopeDeg: 75.25762,
      tolerance: 1e-4,
    },
    {
      z: [2450, 2461, 2483, 2452, 2461, 2483, 2447, 2455, 2477],
      cellM: 5,
      slopeDeg: 72.48547,
      tolerance: 1e-5,
    },
  ])('slope $slopeDeg', ({ z, cellM, slopeDeg, tolerance }) => {
    expect(Math.abs(slopeDegOf(hornGradient(z, squareCell(cellM))) - slopeDeg)).toBeLessThan(tolerance);
  });

  test.each([
    { z: [101, 92, 85, 101, 92, 85, 101, 91, 84], aspectDeg: 92.64, tolerance: 0.005 },
    { z: [2450, 2461, 2483, 2452, 2461, 2483, 2447, 2455, 2477], aspectDeg: 260.4634, tolerance: 5e-5 },
  ])('aspect $aspectDeg', ({ z, aspectDeg, tolerance }) => {
    expect(Math.abs(downhillDegOf(hornGradient(z, squareCell(5))) - aspectDeg)).toBeLessThan(tolerance);
  });
});

test.each([0.5, 5, 30, 90])('a plane falling 30 degrees to the east reads 30 on cells of %d m', (cellM) => {
  const fall = cellM * Math.tan(Math.PI / 6);
  const z = [0, 1, 2, 0, 1, 2, 0, 1, 2].map((col) => 2000 - col * fall);
  const gradient = hornGradient(z, squareCell(cellM));
  expect(slopeDegOf(gradient)).toBeCloseTo(30, 9);
  expect(downhillDegOf(gradient)).toBeCloseTo(90, 9);
});

/**
 * A 45 degree step of width W in a slope of 20, the window's middle on the step's, seen by 30 m cells: closed form,
 * recomputed. This is what the added design slope is for.
 */
test.each([
  { stepM: 5, readsDeg: 22.63 },
  { stepM: 10, readsDeg: 25.17 },
  { stepM: 20, readsDeg: 29.94 },
  { stepM: 30, readsDeg: 34.29 },
  { stepM: 60, readsDeg: 45 },
])('a step of 45 degrees $stepM m wide reads $readsDeg on 30 m cells', ({ stepM, readsDeg }) => {
  const heightM = (x: number): number => {
    const onStep = Math.max(-stepM / 2, Math.min(stepM / 2, x));
    return -(onStep + (x - onStep) * Math.tan((20 * Math.PI) / 180));
  };
  const z = [-30, 0, 30, -30, 0, 30, -30, 0, 30].map(heightM);
  expect(slopeDegOf(hornGradient(z, squareCell(30)))).toBeCloseTo(readsDeg, 2);
});
