import type { Scale } from './axis';

/** Pixels. */
export type Point = readonly [x: number, y: number];

/** Values along the line, in step: distances rising, values NaN where unknown. */
export interface Course {
  readonly alongM: Float64Array;
  readonly value: Float64Array;
}

/** First index whose distance is at least `atM`; the length if none. */
export function firstFrom(alongM: Float64Array, atM: number): number {
  let low = 0;
  let high = alongM.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (alongM[middle]! < atM) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Linear between neighbours; NaN outside the course and beside an unknown value. */
export function valueAt({ alongM, value }: Course, atM: number): number {
  const after = firstFrom(alongM, atM);
  const x1 = alongM[after] ?? NaN;
  if (x1 === atM) return value[after]!;
  const x0 = alongM[after - 1]!;
  const y0 = value[after - 1]!;
  return y0 + ((atM - x0) / (x1 - x0)) * ((value[after] ?? NaN) - y0);
}

/**
 * The course between two distances as runs of pixels, parted where a value is unknown. Where several values fall into one
 * pixel column, its first, least, most and last are kept, so that no peak is lost however many stations there are.
 */
export function drawnRuns(
  course: Course,
  [fromM, toM]: readonly [number, number],
  x: Scale,
  y: Scale,
): Point[][] {
  const runs: Point[][] = [];
  let run: Point[] = [];
  let column: { px: number; ys: number[]; xs: number[] } | null = null;

  const flush = () => {
    if (column) run.push(...extremes(column.xs, column.ys));
    column = null;
  };
  const lift = () => {
    flush();
    if (run.length > 0) runs.push(run);
    run = [];
  };
  const add = (atM: number, value: number) => {
    if (Number.isNaN(value)) return lift();
    const px = x.toPx(atM);
    if (column?.px !== Math.floor(px)) flush();
    column ??= { px: Math.floor(px), xs: [], ys: [] };
    column.xs.push(px);
    column.ys.push(y.toPx(value));
  };

  add(fromM, valueAt(course, fromM));
  const end = firstFrom(course.alongM, toM);
  const first = firstFrom(course.alongM, fromM);
  for (let i = course.alongM[first] === fromM ? first + 1 : first; i < end; i++) {
    add(course.alongM[i]!, course.value[i]!);
  }
  add(toM, valueAt(course, toM));
  lift();
  return runs;
}

function extremes(xs: readonly number[], ys: readonly number[]): Point[] {
  let least = 0;
  let most = 0;
  ys.forEach((value, i) => {
    if (value < ys[least]!) least = i;
    if (value > ys[most]!) most = i;
  });
  const kept = [...new Set([0, least, most, ys.length - 1])].sort((a, b) => a - b);
  return kept.map((i) => [xs[i]!, ys[i]!]);
}

const round = (px: number) => Math.round(px * 10) / 10;

const joined = (points: readonly Point[]) => points.map(([px, py]) => `${round(px)} ${round(py)}`).join('L');

/** Path of open lines. */
export const linePath = (runs: readonly (readonly Point[])[]): string =>
  runs.map((run) => `M${joined(run)}`).join('');

/** Path of fields between each run and a level. */
export const areaPath = (runs: readonly (readonly Point[])[], basePx: number): string =>
  runs
    .map((run) => {
      const first = run[0]![0];
      const last = run.at(-1)![0];
      return `M${round(first)} ${round(basePx)}L${joined(run)}L${round(last)} ${round(basePx)}Z`;
    })
    .join('');

/** Path of a band: out along the upper runs, back along the lower, where both have the same number of runs. */
export const bandPath = (
  upper: readonly (readonly Point[])[],
  lower: readonly (readonly Point[])[],
): string =>
  upper
    .map((run, i) => {
      const back = lower[i];
      return back ? `M${joined(run)}L${joined([...back].reverse())}Z` : '';
    })
    .join('');
