import type { Figures } from '../assumptions/figures';
import type { Problem } from '../domain/problem';
import type { Project } from '../domain/project';
import type { Plan } from '../domain/segment';
import type { GroundProfile } from '../domain/station';
import type { SlipTables } from '../slip/tables';
import { rulesOf } from './allowed-modes';
import { dayClock } from './day-clock';
import { decisionsOf } from './decisions';
import { paceCosts, ropeOrders } from './pace-costs';
import type { ComesFrom } from './pace-stretches';
import { planWay, type PlannedWay, type Planner } from './plan-way';
import type { OtherAbility } from './sensitivity';
import { chordM } from './local-plane';
import { lookupIn, type SlipLookup } from './slip-lookup';
import { terrainSaid } from './terrain-said';
import { totalsOf } from './totals';
import { turnRound } from './turn-round';
import { allWarnings } from './warnings/all-warnings';
import type { Planned } from './warnings/warn';
import { wayBackOf, wayThere } from './way';

export interface PlanInput {
  readonly profile: GroundProfile;
  readonly project: Project;
  readonly figures: Figures;
  /** Built for this party, these figures and every snow on the line; flips of hardness need all six hardnesses. */
  readonly tables: SlipTables;
  /** The tables are coarse and finer ones follow; by default, whether they are. */
  readonly settling?: boolean;
  /** Ground under the other line, where the schedule says the team comes back by one. */
  readonly wayBackProfile?: GroundProfile;
  /** Tables of the same team a step weaker or stronger, for what would flip a segment. */
  readonly otherAbilities?: readonly OtherAbility[];
  /** ISO date to judge the survey's age by where the schedule has no start. */
  readonly today?: string;
}

/** The whole plan: modes, segments, times, totals, warnings; there and, where asked for, back. */
export function makePlan(input: PlanInput): Plan {
  const settling = input.settling ?? input.tables.quality === 'coarse';
  return planWith(lookupIn(input.tables), { ...input, settling });
}

/** The same with any slip model. */
export function planWith(
  lookup: SlipLookup,
  input: Omit<PlanInput, 'tables'> & { readonly settling: boolean },
): Plan {
  const { project, figures, settling } = input;
  const profile = withTerrainSaid(input.profile, project);
  const orders = ropeOrders(project);
  const clock = dayClock(project.schedule);
  const planner: Planner = {
    project,
    figures,
    orders,
    costs: paceCosts(project, figures, orders),
    model: { rules: rulesOf(project, figures), lookup, otherAbilities: input.otherAbilities ?? [] },
    clock: clock.ok ? clock.value : null,
  };
  const about = {
    planner,
    settling,
    clockProblem: clock.ok ? null : clock.problem,
    today: input.today ?? null,
  };
  const planOf = (way: PlannedWay, wayBack: Plan | null, ground: GroundSaid) =>
    planOfWay(way, wayBack, ground, about);

  const way = wayThere(profile, project);
  const there = planWay(planner, way, planner.clock === null ? null : 0, null);
  const { wayBackProfile: otherGround } = input;
  const back = wayBackOf(way, project, otherGround);
  const isOther = typeof project.schedule.wayBack !== 'string';
  const ground = { terrain: profile.terrain, groundNotes: profile.notes };
  if (back === null) return planOf(there, null, { ...ground, otherWayBack: isOther ? 'unread' : null });
  const plannedBack = planWay(planner, back, there.endS, endOf(there));
  // What is to be said of the ground of one line is said on the way there.
  const groundBack =
    isOther && otherGround
      ? { terrain: terrainSaid(otherGround.terrain, project), groundNotes: otherGround.notes }
      : { ...ground, groundNotes: [] };
  const wayBack = planOf(plannedBack, null, { ...groundBack, otherWayBack: null });
  const [end, begin] = [there.decided.line.stations.at(-1), wayBack.stations[0]];
  const beginsOffM = end && begin ? chordM(end.position, begin.position) : 0;
  return planOf(there, wayBack, { ...ground, otherWayBack: isOther ? { beginsOffM } : null });
}

/** What is to be said of the ground under a way. */
type GroundSaid = Pick<Planned, 'terrain' | 'groundNotes' | 'otherWayBack'>;

interface AboutPlan {
  readonly planner: Planner;
  readonly settling: boolean;
  readonly clockProblem: Problem | null;
  readonly today: string | null;
}

/** A planned way with its totals and warnings. */
function planOfWay(
  planned: PlannedWay,
  wayBack: Plan | null,
  ground: GroundSaid,
  { planner, settling, clockProblem, today }: AboutPlan,
): Plan {
  const { project, model } = planner;
  const turn = wayBack === null ? null : turnRound(planner.clock, wayBack);
  const totals = totalsOf({
    segments: planned.segments,
    lengthM: planned.decided.line.lengthM,
    crossings: planned.stretches.reduce((sum, { pace }) => sum + pace.crossings, 0),
    pickets: Math.max(0, ...planned.stretches.map(({ pace }) => pace.pickets)),
    captureDevices: planned.segments.some(({ variant }) => variant === 'running-capture')
      ? project.party.rack.captureDevices
      : 0,
    arrive: planned.endS === null ? null : planner.clock!.isoAt(planned.endS),
    turnRound: turn?.usual ?? null,
  });
  const warnings = allWarnings({
    ...{ ...planner, ...planned, ...ground, totals, turn, clockProblem },
    onDate: project.schedule.start?.slice(0, 10) ?? today,
  });
  return {
    stations: planned.decided.line.stations,
    decisions: decisionsOf(planned.decided, model.rules),
    segments: planned.segments,
    ...{ totals, warnings, wayBack, settling },
  };
}

const withTerrainSaid = (profile: GroundProfile, project: Project): GroundProfile => ({
  ...profile,
  terrain: terrainSaid(profile.terrain, project),
});

function endOf({ decided }: PlannedWay): ComesFrom | null {
  const [state, condition] = [decided.states.at(-1), decided.conditions.at(-1)];
  return state === undefined || condition === undefined ? null : { state, goingDown: condition.goingDown };
}
