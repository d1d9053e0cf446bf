import type { Mark, MarkKind } from '../domain/mark';
import { cutFraction, holds, nearestOnPiece, onOnePlane, type LineOnSphere, type XY } from './local-plane';

/** A mark where it meets the line. */
export interface LineMark {
  readonly mark: Mark;
  readonly fromM: number;
  readonly toM: number;
  /** How far beside the line it lies; 0 where it crosses. */
  readonly offsetM: number;
}

/** Gaps in the snow that are crossed one at a time, belayed. */
export const crossedKinds: ReadonlySet<MarkKind> = new Set(['crevasse-crossing', 'bergschrund', 'moat']);

/** What is taken along the line where nobody said how wide it is, metres (judgement). */
const widthIfNotSaidM: Readonly<Partial<Record<MarkKind, number>>> = {
  'crevasse-crossing': 2,
  bergschrund: 3,
  moat: 2,
  ice: 10,
  rock: 10,
  cornice: 10,
  'no-standing': 10,
};

interface Span {
  readonly fromM: number;
  readonly toM: number;
  readonly offsetM: number;
}

/**
 * Where a mark meets the line, if it does: where its shape crosses the line, or covers it, or runs along it within `reachM`;
 * else, for what only comes that near, the nearest place of each pass. Spans along the line, rising, within 0 to its length.
 */
export function meetLine(mark: Mark, line: LineOnSphere, reachM: number): LineMark[] {
  const lengthM = line.alongM.at(-1) ?? 0;
  return spansOf(mark, line, reachM).map((span) => {
    // A place has the width that is said; a drawn extent is as wide as it is drawn.
    const isPlace = span.toM === span.fromM;
    const halfWidthM = isPlace ? (mark.widthM ?? widthIfNotSaidM[mark.kind] ?? 0) / 2 : 0;
    return {
      mark,
      fromM: Math.max(0, span.fromM - halfWidthM),
      toM: Math.min(lengthM, span.toM + halfWidthM),
      offsetM: span.offsetM,
    };
  });
}

function spansOf(mark: Mark, sphere: LineOnSphere, reachM: number): Span[] {
  const { line, shape } = onOnePlane(sphere, mark.positions);
  const [first, last] = [mark.positions[0], mark.positions.at(-1)];
  if (first === undefined || last === undefined || line.length < 2) return [];
  const closed = mark.positions.length > 3 && first[0] === last[0] && first[1] === last[1];

  if (closed) {
    const covered = coveredSpans(line, sphere.alongM, shape);
    if (covered.length > 0) return covered;
  }
  if (shape.length > 1) {
    const cuts = cutsM(line, sphere.alongM, shape).map((m) => ({ fromM: m, toM: m, offsetM: 0 }));
    const spans = crossedKinds.has(mark.kind)
      ? cuts
      : [...cuts, ...besideSpans(line, sphere.alongM, shape, reachM)];
    if (spans.length > 0) return merged(spans);
  }
  return nearestSpans(line, sphere.alongM, shape, reachM);
}

/** Distances at which the line is cut by a shape, rising. */
function cutsM(line: readonly XY[], alongM: Float64Array, shape: readonly XY[]): number[] {
  const cuts: number[] = [];
  const box = boxOf(shape, 0);
  eachPiece(line, (a, b, i) => {
    if (!touches(box, a, b)) return;
    eachPiece(shape, (c, d) => {
      const fraction = cutFraction(a, b, c, d);
      if (fraction !== null) cuts.push(alongAt(alongM, i, fraction));
    });
  });
  return cuts.sort((a, b) => a - b);
}

/** What a closed shape covers. */
function coveredSpans(line: readonly XY[], alongM: Float64Array, shape: readonly XY[]): Span[] {
  const lengthM = alongM.at(-1)!;
  const ends = [0, ...cutsM(line, alongM, shape), lengthM];
  const spans: Span[] = [];
  for (let k = 1; k < ends.length; k++) {
    const [fromM, toM] = [ends[k - 1]!, ends[k]!];
    if (toM > fromM && holds(shape, xyAt(line, alongM, (fromM + toM) / 2)))
      spans.push({ fromM, toM, offsetM: 0 });
  }
  return merged(spans);
}

/** What an open shape runs along, within reach: stretches of stations near it. */
function besideSpans(
  line: readonly XY[],
  alongM: Float64Array,
  shape: readonly XY[],
  reachM: number,
): Span[] {
  const spans: Span[] = [];
  const box = boxOf(shape, reachM);
  line.forEach((p, i) => {
    if (!touches(box, p, p)) return;
    let offsetM = Infinity;
    eachPiece(shape, (c, d) => {
      offsetM = Math.min(offsetM, nearestOnPiece(c, d, p).offsetM);
    });
    if (!(offsetM <= reachM)) return;
    const [before, here, after] = [alongM[i - 1], alongM[i]!, alongM[i + 1]];
    // Half-way to the neighbours, so that neighbouring stations' spans meet.
    spans.push({
      fromM: ((before ?? here) + here) / 2,
      toM: ((after ?? here) + here) / 2,
      offsetM,
    });
  });
  return spans;
}

/** A line may pass the same place twice, there and back: passes this much farther than the nearest still count, metres. */
const samePassM = 5;

/** The nearest place of every pass of the line by a shape's corners, within reach. */
function nearestSpans(
  line: readonly XY[],
  alongM: Float64Array,
  shape: readonly XY[],
  reachM: number,
): Span[] {
  const passes: Span[] = [];
  const box = boxOf(shape, reachM);
  let pass: Span | null = null;
  eachPiece(line, (a, b, i) => {
    const near = touches(box, a, b) ? nearestOf(shape, a, b) : null;
    if (near === null || !(near.offsetM <= reachM)) {
      if (pass !== null) passes.push(pass);
      pass = null;
    } else if (pass === null || near.offsetM < pass.offsetM) {
      const m = alongAt(alongM, i, near.fraction);
      pass = { fromM: m, toM: m, offsetM: near.offsetM };
    }
  });
  if (pass !== null) passes.push(pass);
  const nearestM = Math.min(...passes.map(({ offsetM }) => offsetM));
  return passes.filter(({ offsetM }) => offsetM <= nearestM + samePassM);
}

function nearestOf(shape: readonly XY[], a: XY, b: XY): { fraction: number; offsetM: number } {
  let best = { fraction: 0, offsetM: Infinity };
  for (const p of shape) {
    const here = nearestOnPiece(a, b, p);
    if (here.offsetM < best.offsetM) best = here;
  }
  return best;
}

function merged(spans: readonly Span[]): Span[] {
  const joined: Span[] = [];
  for (const span of [...spans].sort((a, b) => a.fromM - b.fromM)) {
    const last = joined.at(-1);
    if (last === undefined || span.fromM > last.toM) joined.push(span);
    else
      joined[joined.length - 1] = {
        fromM: last.fromM,
        toM: Math.max(last.toM, span.toM),
        offsetM: Math.min(last.offsetM, span.offsetM),
      };
  }
  return joined;
}

function eachPiece(points: readonly XY[], visit: (a: XY, b: XY, index: number) => void): void {
  for (let i = 0; i + 1 < points.length; i++) {
    visit(points[i]!, points[i + 1]!, i);
  }
}

const alongAt = (alongM: Float64Array, i: number, fraction: number): number => {
  const [from, to] = [alongM[i]!, alongM[i + 1]!];
  return from + fraction * (to - from);
};

/** Where a distance inside the line is. */
function xyAt(line: readonly XY[], alongM: Float64Array, m: number): XY {
  const i = alongM.findIndex((end) => end >= m);
  const [a, b] = [line[i - 1]!, line[i]!];
  const [from, to] = [alongM[i - 1]!, alongM[i]!];
  const fraction = (m - from) / (to - from);
  return { x: a.x + fraction * (b.x - a.x), y: a.y + fraction * (b.y - a.y) };
}

interface Box {
  readonly west: number;
  readonly east: number;
  readonly south: number;
  readonly north: number;
}

function boxOf(shape: readonly XY[], marginM: number): Box {
  const [xs, ys] = [shape.map(({ x }) => x), shape.map(({ y }) => y)];
  return {
    west: Math.min(...xs) - marginM,
    east: Math.max(...xs) + marginM,
    south: Math.min(...ys) - marginM,
    north: Math.max(...ys) + marginM,
  };
}

const touches = (box: Box, a: XY, b: XY): boolean =>
  Math.max(a.x, b.x) >= box.west &&
  Math.min(a.x, b.x) <= box.east &&
  Math.max(a.y, b.y) >= box.south &&
  Math.min(a.y, b.y) <= box.north;
