import { expect, test } from 'vitest';
import { spreadMean } from '../../../src/core/slip/sheet-lookup';

/** Steps of 3 degrees to 75; at 60 degrees to the fall line two columns, as where the figures step there. */
const slopesDeg = Float64Array.from({ length: 26 }, (_, row) => 3 * row);
const betasDeg = Float64Array.of(0, 20, 40, 60 - 1e-6, 60, 75, 90);

const sheet = (of: (slopeDeg: number, betaDeg: number, column: number) => number): Float32Array =>
  Float32Array.from({ length: slopesDeg.length * betasDeg.length }, (_, i) => {
    const column = i % betasDeg.length;
    return of(slopesDeg[Math.floor(i / betasDeg.length)]!, betasDeg[column]!, column);
  });

const lookUp = (values: Float32Array, slopeDeg: number, betaDeg: number, sigmaDeg = 0): number =>
  spreadMean({ slopesDeg, betasDeg }, values, { slopeDeg, betaDeg, sigmaDeg });

test('a bilinear surface is given back everywhere, on the lines of the sheet and between', () => {
  const surface = (slopeDeg: number, betaDeg: number) =>
    2 + 0.5 * slopeDeg - 0.1 * betaDeg + 0.01 * slopeDeg * betaDeg;
  const values = sheet(surface);
  for (const slopeDeg of [0, 1, 3, 29.5, 30, 31, 72, 74.9, 75]) {
    for (const betaDeg of [0, 7, 20, 33, 59, 60, 61, 75, 83, 90]) {
      expect(lookUp(values, slopeDeg, betaDeg)).toBeCloseTo(surface(slopeDeg, betaDeg), 3);
    }
  }
});

test('each cell is interpolated between its own four corners', () => {
  // No two corners alike, and no plane through any four.
  const values = sheet((slopeDeg, _, column) => ((slopeDeg / 3) * 7 + column * column * 11) % 29);
  const corner = (row: number, column: number) => values[row * betasDeg.length + column]!;
  for (const [row, column] of [
    [0, 0],
    [4, 1],
    [9, 2],
    [17, 4],
    [24, 5],
  ] as const) {
    const betaDeg = 0.75 * betasDeg[column]! + 0.25 * betasDeg[column + 1]!;
    const upper = 0.75 * corner(row, column) + 0.25 * corner(row, column + 1);
    const lower = 0.75 * corner(row + 1, column) + 0.25 * corner(row + 1, column + 1);
    expect(lookUp(values, slopesDeg[row]! + 1, betaDeg)).toBeCloseTo((2 * upper + lower) / 3, 4);
  }
});

test('a step at an angle is a step: the figure from there on is that of the far side', () => {
  const values = sheet((_, betaDeg) => (betaDeg >= 60 ? 80 : 20));
  expect(lookUp(values, 30, 59.999)).toBeCloseTo(20, 6);
  expect(lookUp(values, 30, 60)).toBeCloseTo(80, 6);
});

test('steeper than the sheet and below nothing count as its last and first slope', () => {
  const values = sheet((slopeDeg) => slopeDeg);
  expect(lookUp(values, 89, 10)).toBeCloseTo(75, 4);
  expect(lookUp(values, 0, 10, 0)).toBe(0);
  // Half of the spread lies below nothing: a half-normal's mean, √(2/π)/2 of the deviation.
  expect(lookUp(values, 0, 10, 3)).toBeCloseTo(3 * Math.sqrt(2 / Math.PI) * 0.5, 1);
});

test('a spread leaves a straight rise alone and adds its square to a curved one', () => {
  const straight = sheet((slopeDeg) => 10 + slopeDeg);
  expect(lookUp(straight, 31, 10, 2)).toBeCloseTo(41, 4);
  // Mean of x² is that of its mean and the variance; the chords of 3 degrees add a third of a half of that width, 1.5.
  const curved = sheet((slopeDeg) => slopeDeg * slopeDeg);
  expect(lookUp(curved, 31, 10, 5) - 31 ** 2).toBeCloseTo(25 + 1.5, 0);
});
