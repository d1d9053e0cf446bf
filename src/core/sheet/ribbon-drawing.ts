import type { Mode } from '../domain/mode';
import type { Plan, Segment } from '../domain/segment';
import { linearScale, type Scale } from './axis';
import { areaPath, drawnRuns, linePath, type Course } from './drawn-line';
import { drawLowerLane, type DrawnLane, type LowerLane } from './lower-lane';
import { rangeOf, type ProfileColumns } from './profile-columns';

/** Where each lane of the ribbon lies, pixels. */
export interface RibbonFrame {
  readonly leftPx: number;
  readonly rightPx: number;
  readonly elevation: { readonly topPx: number; readonly basePx: number };
  readonly lower: { readonly topPx: number; readonly basePx: number };
}

export interface DrawnSegment {
  readonly id: number;
  readonly mode: Mode;
  readonly overridden: boolean;
  readonly fromPx: number;
  readonly toPx: number;
  /** The field under the ground line, and the ground line. Empty where the ground is unknown. */
  readonly area: string;
  readonly line: string;
}

export interface RibbonDrawing {
  readonly segments: readonly DrawnSegment[];
  /** Stretches without ground data, pixels. */
  readonly gaps: readonly { readonly fromPx: number; readonly toPx: number }[];
  readonly lower: DrawnLane;
  readonly elevation: Scale;
  readonly elevationRangeM: readonly [number, number] | null;
}

/** A line that is nearly level is not blown up to look like a mountain. */
const leastRangeM = 40;

function elevationScale(range: readonly [number, number] | null, frame: RibbonFrame): Scale {
  const [least, most] = range ?? [0, leastRangeM];
  const pad = Math.max(leastRangeM - (most - least), (most - least) * 0.16) / 2;
  return linearScale([least - pad, most + pad], [frame.elevation.basePx, frame.elevation.topPx]);
}

/** The ribbon of a plan between two distances, as paths. `x` maps metres along the line to pixels. */
export function drawRibbon(
  plan: Pick<Plan, 'stations' | 'segments'>,
  columns: ProfileColumns,
  [fromM, toM]: readonly [number, number],
  x: Scale,
  frame: RibbonFrame,
  lane: LowerLane = 'slope',
): RibbonDrawing {
  const elevationRangeM = rangeOf(columns.elevationM, fromM, toM);
  const elevation = elevationScale(elevationRangeM, frame);

  return {
    segments: plan.segments
      .filter((s) => s.toM > fromM && s.fromM < toM)
      .map((s) => drawSegment(s, columns.elevationM, [fromM, toM], x, elevation, frame.elevation.basePx)),
    gaps: unknownStretches(columns.elevationM, fromM, toM).map(([a, b]) => ({
      fromPx: x.toPx(a),
      toPx: x.toPx(b),
    })),
    lower: drawLowerLane(lane, columns, [fromM, toM], x, frame.lower),
    elevation,
    elevationRangeM,
  };
}

function drawSegment(
  segment: Segment,
  course: Course,
  [fromM, toM]: readonly [number, number],
  x: Scale,
  y: Scale,
  basePx: number,
): DrawnSegment {
  const span: [number, number] = [Math.max(fromM, segment.fromM), Math.min(toM, segment.toM)];
  const runs = drawnRuns(course, span, x, y);
  return {
    id: segment.id,
    mode: segment.mode,
    overridden: segment.overridden,
    fromPx: x.toPx(span[0]),
    toPx: x.toPx(span[1]),
    area: areaPath(runs, basePx),
    line: linePath(runs),
  };
}

/** Stretches between known neighbours in which the value is unknown. */
export function unknownStretches(course: Course, fromM: number, toM: number): [number, number][] {
  const { alongM, value } = course;
  const stretches: [number, number][] = [];
  let knownM: number | null = null;
  let isOpen = false;
  for (let i = 0; i < alongM.length; i++) {
    const at = alongM[i]!;
    const isKnown = !Number.isNaN(value[i]!);
    if (!isKnown && !isOpen) {
      stretches.push([knownM ?? at, at]);
      isOpen = true;
    }
    const last = stretches.at(-1);
    if (isOpen && last) last[1] = at;
    if (isKnown) {
      isOpen = false;
      knownM = at;
    }
  }
  return stretches
    .map(([a, b]): [number, number] => [Math.max(a, fromM), Math.min(b, toM)])
    .filter(([a, b]) => b > a);
}
