import { linearScale, type Scale } from './axis';
import { bandPath, drawnRuns, linePath, type Course } from './drawn-line';
import { rangeOf, type ProfileColumns } from './profile-columns';

/** What the lane under the elevation shows. */
export type LowerLane = 'slope' | 'unheld';

export interface DrawnLane {
  readonly line: string;
  /** One standard deviation to both sides of the slope; empty for shares. */
  readonly band: string;
  /** How many may stay unheld; empty for slopes. */
  readonly limit: string;
  readonly scale: Scale;
  readonly top: number;
  readonly ticks: readonly number[];
  /** Values at which rules change, drawn as thin guides. */
  readonly guides: readonly number[];
}

interface Extent {
  readonly topPx: number;
  readonly basePx: number;
}

export interface SlopeGuides {
  readonly ropedAlwaysBelowDeg: number;
  readonly pitchedOnlyFromDeg: number;
  readonly noneAboveDeg: number;
}

const usualGuides: SlopeGuides = { ropedAlwaysBelowDeg: 15, pitchedOnlyFromDeg: 50, noneAboveDeg: 60 };

export function drawLowerLane(
  lane: LowerLane,
  columns: ProfileColumns,
  span: readonly [number, number],
  x: Scale,
  { topPx, basePx }: Extent,
  rule: SlopeGuides = usualGuides,
): DrawnLane {
  const steepest = rangeOf(columns.slopeHighDeg, ...span)?.[1] ?? 0;
  const top = lane === 'unheld' ? 100 : Math.min(90, Math.max(45, Math.ceil(steepest / 15) * 15));
  const scale = linearScale([0, top], [basePx, topPx]);
  const runs = (course: Course) => drawnRuns(course, span, x, scale);
  if (lane === 'unheld') {
    return {
      line: linePath(runs(columns.unheldPct)),
      band: '',
      limit: linePath(runs(columns.tolerancePct)),
      scale,
      top,
      ticks: [0, 50, 100],
      guides: [],
    };
  }
  const guides = [rule.ropedAlwaysBelowDeg, rule.pitchedOnlyFromDeg, rule.noneAboveDeg];
  return {
    line: linePath(runs(columns.slopeDeg)),
    band: bandPath(runs(columns.slopeHighDeg), runs(columns.slopeLowDeg)),
    limit: '',
    scale,
    top,
    ticks: [0, 30, 60, 90].filter((deg) => deg <= top),
    guides: guides.filter((deg) => deg < top),
  };
}
