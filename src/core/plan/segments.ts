import { runOutClasses, type RunOutClass } from '../domain/station';
import type { Segment } from '../domain/segment';
import type { Climbs } from './climbs';
import type { Decided } from './decide';
import { reasonFor } from './reasons';
import { decidingStation, flipsAt, type Model } from './sensitivity';
import type { SegmentPace } from './share-time';
import type { Span } from './spans';
import { isVariant, modeOf } from './states';

/** One line of the ledger, before the clock. */
export function segmentOf(
  decided: Decided,
  { id, span, pace, climbs, model, onGlacier }: SegmentParts,
): Segment {
  const { conditions, choices, states } = decided;
  const here = conditions.slice(span.first, span.end);
  const state = states[span.first]!;
  const mode = modeOf(state);
  const deciding = decidingStation(decided, span);
  const [condition, choice] = [conditions[deciding]!, choices[deciding]!];
  const first = conditions[span.first]!;

  const slopes = here.map(({ station }) => station.slopeDeg);
  const designs = here.map(({ station }) => station.designSlopeDeg);
  const reasons = [reasonFor(condition, choice, state, model.rules)];
  if (condition.runOutOverridden) reasons.push(`The ${condition.runOut} run-out was set by the guide.`);
  if (first.snowChanged) reasons.push('Decided for the snow expected by the time the team comes here.');
  if (mode === 'roped' && onGlacier) reasons.push('Crevasse falls are not in these figures.');

  return {
    id,
    fromM: span.fromM,
    toM: span.toM,
    lengthM: span.toM - span.fromM,
    ...climbs.between(span.fromM, span.toM),
    slopeMeanDeg: known(slopes) ? weightedMean(decided, span, slopes) : null,
    slopeMaxDeg: known(slopes) ? highest(slopes) : null,
    designSlopeMaxDeg: known(designs) ? highest(designs) : null,
    aspectDeg: meanDirectionDeg(here.map(({ station }) => station.aspectDeg)),
    runOut: worst(here.filter(({ designSlopeDeg }) => designSlopeDeg !== null).map(({ runOut }) => runOut)),
    snow: first.snow,
    snowChanged: first.snowChanged,
    goingDown: first.goingDown,
    mode,
    variant: isVariant(state) ? state : null,
    overridden: here.some(({ override }) => override !== null),
    reasons,
    decidedAt: {
      alongM: condition.station.alongM,
      designSlopeDeg: condition.designSlopeDeg,
      runOut: condition.runOut,
      tolerancePct: choice.tolerancePct,
    },
    flips: flipsAt(condition, choice, model),
    shares: {},
    time: pace.time,
    parts: pace.parts,
    pieces: pace.pieces,
    gatherings: pace.gatherings,
    rotations: pace.rotations,
    pitches: pace.pitches,
    arrive: null,
    leave: null,
    note: notesOn(decided, span),
  };
}

export interface SegmentParts {
  readonly id: number;
  readonly span: Span;
  readonly pace: SegmentPace;
  readonly climbs: Climbs;
  readonly model: Model;
  readonly onGlacier: boolean;
}

/** What the guide wrote on the overrides that reach into a segment. */
function notesOn({ line }: Decided, { fromM, toM }: Span): string {
  const here = line.overrides.filter((override) => override.fromM < toM && override.toM > fromM);
  return here
    .map(({ note }) => note)
    .filter((note) => note !== '')
    .join('; ');
}

const highest = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b), -Infinity);

const known = (values: readonly (number | null)[]): values is readonly number[] => !values.includes(null);

function weightedMean({ edgesM }: Decided, { first, fromM, toM }: Span, values: readonly number[]): number {
  const sum = values.reduce((total, value, k) => {
    const partM = edgesM[first + k + 1]! - edgesM[first + k]!;
    return total + value * partM;
  }, 0);
  return toM > fromM ? sum / (toM - fromM) : values[0]!;
}

/** Mean of directions as vectors; null where none is known or they cancel out. Degrees, 0 to 360. */
function meanDirectionDeg(directions: readonly (number | null)[]): number | null {
  let [east, north, count] = [0, 0, 0];
  for (const deg of directions) {
    if (deg === null) continue;
    east += Math.sin((deg * Math.PI) / 180);
    north += Math.cos((deg * Math.PI) / 180);
    count++;
  }
  if (count === 0 || Math.hypot(east, north) < 0.05 * count) return null;
  return ((Math.atan2(east, north) * 180) / Math.PI + 360) % 360;
}

function worst(classes: readonly RunOutClass[]): RunOutClass | null {
  const rank = highest(classes.map((runOut) => runOutClasses.indexOf(runOut)));
  return runOutClasses[rank] ?? null;
}
