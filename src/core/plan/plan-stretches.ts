import type { Figures } from '../assumptions/figures';
import type { Project } from '../domain/project';
import type { Plan, Segment } from '../domain/segment';
import { rackAdvice, type RackAdvice } from '../pace/rack-advice';
import type { StretchInput } from '../pace/stretch-input';
import { nearestIndex } from './borders';
import type { RunOutClass } from '../domain/station';
import { standingRules } from './standing-rules';
import { meetLine } from './line-marks';
import { lineOnSphere } from './local-plane';
import { ropeOrders } from './pace-costs';
import { paintedThere } from './way';

const isSameStretch = (a: Segment, b: Segment): boolean =>
  a.mode === b.mode &&
  a.variant === b.variant &&
  a.goingDown === b.goingDown &&
  a.snow.hardness === b.snow.hardness &&
  a.snow.wetness === b.snow.wetness &&
  a.mode !== 'belayed-crossing';

/** A plan's stretches as they are gone in one go, ready to be paced again: with another rack, or to be played. */
export function planStretches(plan: Plan, project: Project, figures: Figures): StretchInput[] {
  const sphere = lineOnSphere(plan.stations);
  const lineMarks = project.marks.flatMap((mark) => meetLine(mark, sphere, figures.runOut.hazardReachM));
  const orders = ropeOrders(project);
  const common = {
    stations: plan.stations,
    figures,
    own: project.ownPace,
    walkingRule: project.walkingRule,
    lastTakesLead: project.lastTakesLead,
    ...standingRules(lineMarks, project.party.rope.intervalM),
  };
  return stretchesOf(plan.segments).map(({ first, toM }) => ({
    ...common,
    mode: first.mode,
    variant: first.variant,
    fromM: first.fromM,
    toM,
    party: first.goingDown ? orders.down : orders.up,
    snow: first.snow,
    runOutAt: (alongM) =>
      setBy(project, alongM) ??
      plan.stations[nearestIndex(plan.stations, alongM)]?.runOut?.[first.snow.hardness].class ??
      null,
  }));
}

/** The guide's run-out class there; of several the last. */
const setBy = (project: Project, alongM: number): RunOutClass | null =>
  paintedThere(project).findLast(
    ({ fromM, toM, runOut }) => runOut !== null && alongM >= fromM && alongM < toM,
  )?.runOut ?? null;

function stretchesOf(segments: readonly Segment[]): { readonly first: Segment; readonly toM: number }[] {
  const stretches: { first: Segment; toM: number }[] = [];
  for (const segment of segments) {
    const last = stretches.at(-1);
    if (last && isSameStretch(last.first, segment)) last.toM = segment.toM;
    else stretches.push({ first: segment, toM: segment.toM });
  }
  return stretches;
}

/** What more or fewer pickets would change on this plan, its modes kept. From two, the fewest a running belay can have. */
export function rackOfPlan(plan: Plan, project: Project, figures: Figures): RackAdvice {
  const carried = project.party.rack.pickets;
  const most = Math.max(8, carried + 3);
  const counts = Array.from({ length: most - 1 }, (_, i) => i + 2);
  return rackAdvice(planStretches(plan, project, figures), counts);
}
