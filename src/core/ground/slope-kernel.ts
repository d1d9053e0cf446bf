import type { GroundScale } from './ground-scale';

type Cells = Float32Array | Float64Array;

/**
 * How a cell's raw Horn differences turn into the squared tangent of its slope: xx dx^2 + xy dx dy + yy dy^2. Holds the
 * cell's size on the ground, also where it is not square or lies askew.
 */
export interface SlopeMetric {
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
}

export function slopeMetric(scale: GroundScale): SlopeMetric {
  const { colPerEast, colPerNorth, rowPerEast, rowPerNorth } = scale;
  return {
    xx: (colPerEast ** 2 + colPerNorth ** 2) / 64,
    xy: (2 * (colPerEast * rowPerEast + colPerNorth * rowPerNorth)) / 64,
    yy: (rowPerEast ** 2 + rowPerNorth ** 2) / 64,
  };
}

/** Rows of a grid, from the first up to but without the second. */
export interface RowRange {
  readonly fromRow: number;
  readonly toRow: number;
}

/**
 * Horn slopes of whole rows, degrees; NaN beside missing cells and on the grid's rim. Rolls three column sums along each
 * row, so that every cell is read three times and not nine. Rows can be shared out among threads.
 *
 * @param z elevations, metres, row by row; NaN where missing
 * @param slopesDeg as long as z; only the rows asked for are written
 * @source B.K.P. Horn, "Hill shading and the reflectance map", Proc. IEEE 69 (1981) 14-47.
 */
export function hornSlopes(
  z: Cells,
  widthPx: number,
  { fromRow, toRow }: RowRange,
  metric: SlopeMetric,
  slopesDeg: Float32Array,
): void {
  const heightPx = z.length / widthPx;
  const { xx, xy, yy } = metric;
  for (let row = fromRow; row < toRow; row++) {
    const at = row * widthPx;
    if (row === 0 || row >= heightPx - 1 || widthPx < 3) {
      slopesDeg.fill(NaN, at, at + widthPx);
      continue;
    }
    slopesDeg[at] = NaN;
    slopesDeg[at + widthPx - 1] = NaN;
    // Sums and differences of the columns before, at and after the cell.
    let north = z[at - widthPx]!;
    let south = z[at + widthPx]!;
    let sumWest = north + 2 * z[at]! + south;
    let fallWest = south - north;
    north = z[at - widthPx + 1]!;
    south = z[at + widthPx + 1]!;
    let sumHere = north + 2 * z[at + 1]! + south;
    let fallHere = south - north;
    for (let i = at + 1; i < at + widthPx - 1; i++) {
      north = z[i - widthPx + 1]!;
      south = z[i + widthPx + 1]!;
      const sumEast = north + 2 * z[i + 1]! + south;
      const fallEast = south - north;
      const dx = sumEast - sumWest;
      const dy = fallWest + 2 * fallHere + fallEast;
      // The middle cell has no weight of its own, but a slope there is no slope when it is missing.
      const tanSq = xx * dx * dx + xy * dx * dy + yy * dy * dy + 0 * sumHere;
      slopesDeg[i] = arctanDeg(Math.sqrt(tanSq));
      sumWest = sumHere;
      fallWest = fallHere;
      sumHere = sumEast;
      fallHere = fallEast;
    }
  }
}

const degreesPerRadian = 180 / Math.PI;

/**
 * Arctangent of a number from 0 up, degrees, to 2e-8 radians: several times as fast as the exact one.
 *
 * @source M. Abramowitz and I.A. Stegun, "Handbook of Mathematical Functions" (1964), 4.4.49 (coefficients from memory;
 * their error is checked over the whole range).
 */
export function arctanDeg(t: number): number {
  const isSteep = t > 1;
  const x = isSteep ? 1 / t : t;
  const s = x * x;
  const radians =
    x *
    (1 +
      s *
        (-0.3333314528 +
          s *
            (0.1999355085 +
              s *
                (-0.1420889944 +
                  s *
                    (0.106562639 +
                      s * (-0.07528964 + s * (0.0429096138 + s * (-0.0161657367 + s * 0.0028662257))))))));
  return degreesPerRadian * (isSteep ? Math.PI / 2 - radians : radians);
}
