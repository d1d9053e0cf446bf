import { hazardKinds, type Mark } from '../domain/mark';
import { cellOfPosition, type GroundScale } from './ground-scale';
import type { Layer } from './terrain';

/** A hazard in a layer's fractional cells: its vertices, and how near a slide may pass. */
interface Hazard {
  readonly cols: readonly number[];
  readonly rows: readonly number[];
  readonly isClosed: boolean;
  readonly reachM: number;
}

/** Bins along each side of the index. */
const binCount = 64;

/** Hazard marks of one layer, binned so that a slide's step asks only what lies near. */
export class HazardIndex {
  readonly #bins: (Hazard[] | undefined)[] = [];
  #west = Infinity;
  #east = -Infinity;
  #north = Infinity;
  #south = -Infinity;

  /** @param stepM longest step that will be asked about */
  constructor(layer: Layer, marks: readonly Mark[], reachM: number, stepM: number) {
    const { raster, scales } = layer;
    const hazards: { hazard: Hazard; margin: number }[] = [];
    for (const mark of marks) {
      const hazard = hazardKinds.has(mark.kind) ? toHazard(layer, mark, reachM) : null;
      if (hazard === null) continue;
      const { colPerEast, colPerNorth, rowPerEast, rowPerNorth } = scales.near(
        hazard.cols[0]!,
        hazard.rows[0]!,
      );
      const cellsPerM = Math.max(Math.hypot(colPerEast, colPerNorth), Math.hypot(rowPerEast, rowPerNorth));
      // Twice the need: the scale changes a little across a long hazard.
      const margin = 2 * (hazard.reachM + stepM) * cellsPerM;
      const west = Math.min(...hazard.cols) - margin;
      const east = Math.max(...hazard.cols) + margin;
      const north = Math.min(...hazard.rows) - margin;
      const south = Math.max(...hazard.rows) + margin;
      if (east < 0 || south < 0 || west > raster.widthPx || north > raster.heightPx) continue;
      hazards.push({ hazard, margin });
      this.#west = Math.min(this.#west, west);
      this.#east = Math.max(this.#east, east);
      this.#north = Math.min(this.#north, north);
      this.#south = Math.max(this.#south, south);
    }
    for (const { hazard, margin } of hazards) {
      const [fromCol, toCol] = [
        this.#binCol(Math.min(...hazard.cols) - margin),
        this.#binCol(Math.max(...hazard.cols) + margin),
      ];
      const [fromRow, toRow] = [
        this.#binRow(Math.min(...hazard.rows) - margin),
        this.#binRow(Math.max(...hazard.rows) + margin),
      ];
      for (let r = fromRow; r <= toRow; r++) {
        for (let c = fromCol; c <= toCol; c++) (this.#bins[r * binCount + c] ??= []).push(hazard);
      }
    }
  }

  /** True if the step from one fractional cell coordinate to another comes within reach of a hazard or lies inside one. */
  catches(col0: number, row0: number, col1: number, row1: number, scale: GroundScale): boolean {
    if (!(col1 >= this.#west && col1 <= this.#east && row1 >= this.#north && row1 <= this.#south))
      return false;
    const near = this.#bins[this.#binRow(row1) * binCount + this.#binCol(col1)];
    return near !== undefined && near.some((hazard) => isCaught(hazard, col0, row0, col1, row1, scale));
  }

  #binCol(col: number): number {
    return bin(col, this.#west, this.#east);
  }

  #binRow(row: number): number {
    return bin(row, this.#north, this.#south);
  }
}

function bin(at: number, from: number, to: number): number {
  return Math.max(0, Math.min(binCount - 1, Math.floor(((at - from) / (to - from)) * binCount)));
}

function toHazard(layer: Layer, mark: Mark, reachM: number): Hazard | null {
  const cells = mark.positions.map((position) => cellOfPosition(layer.raster, position));
  if (cells.length === 0 || cells.some(([col, row]) => Number.isNaN(col) || Number.isNaN(row))) return null;
  const first = mark.positions[0]!;
  const last = mark.positions.at(-1)!;
  return {
    cols: cells.map(([col]) => col),
    rows: cells.map(([, row]) => row),
    isClosed: cells.length > 3 && first[0] === last[0] && first[1] === last[1],
    // A point with a width is known to reach that far on either side.
    reachM: reachM + (cells.length === 1 ? (mark.widthM ?? 0) / 2 : 0),
  };
}

function isCaught(
  { cols, rows, isClosed, reachM }: Hazard,
  col0: number,
  row0: number,
  col1: number,
  row1: number,
  { eastPerCol, eastPerRow, northPerCol, northPerRow }: GroundScale,
): boolean {
  if (isClosed && isInside(cols, rows, col1, row1)) return true;
  // Everything in metres about the step's start.
  const east = (col: number, row: number) => (col - col0) * eastPerCol + (row - row0) * eastPerRow;
  const north = (col: number, row: number) => (col - col0) * northPerCol + (row - row0) * northPerRow;
  const stepE = east(col1, row1);
  const stepN = north(col1, row1);
  let e0 = east(cols[0]!, rows[0]!);
  let n0 = north(cols[0]!, rows[0]!);
  if (cols.length === 1) return pointToSegmentM(e0, n0, 0, 0, stepE, stepN) <= reachM;
  for (let i = 1; i < cols.length; i++) {
    const e1 = east(cols[i]!, rows[i]!);
    const n1 = north(cols[i]!, rows[i]!);
    if (
      cross(0, 0, stepE, stepN, e0, n0, e1, n1) ||
      pointToSegmentM(0, 0, e0, n0, e1, n1) <= reachM ||
      pointToSegmentM(stepE, stepN, e0, n0, e1, n1) <= reachM ||
      pointToSegmentM(e0, n0, 0, 0, stepE, stepN) <= reachM ||
      pointToSegmentM(e1, n1, 0, 0, stepE, stepN) <= reachM
    ) {
      return true;
    }
    e0 = e1;
    n0 = n1;
  }
  return false;
}

function pointToSegmentM(px: number, py: number, x0: number, y0: number, x1: number, y1: number): number {
  const dx = x1 - x0;
  const dy = y1 - y0;
  const lengthSq = dx * dx + dy * dy;
  const t = lengthSq === 0 ? 0 : Math.max(0, Math.min(1, ((px - x0) * dx + (py - y0) * dy) / lengthSq));
  return Math.hypot(px - x0 - t * dx, py - y0 - t * dy);
}

function cross(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): boolean {
  const side = (px: number, py: number, qx: number, qy: number, rx: number, ry: number) =>
    Math.sign((qx - px) * (ry - py) - (qy - py) * (rx - px));
  return (
    side(ax, ay, bx, by, cx, cy) !== side(ax, ay, bx, by, dx, dy) &&
    side(cx, cy, dx, dy, ax, ay) !== side(cx, cy, dx, dy, bx, by)
  );
}

/** Even-odd rule. */
function isInside(cols: readonly number[], rows: readonly number[], col: number, row: number): boolean {
  let inside = false;
  for (let i = 0, j = cols.length - 1; i < cols.length; j = i++) {
    if (
      rows[i]! > row !== rows[j]! > row &&
      col < ((cols[j]! - cols[i]!) * (row - rows[i]!)) / (rows[j]! - rows[i]!) + cols[i]!
    ) {
      inside = !inside;
    }
  }
  return inside;
}
