import type { Figures } from '../assumptions/figures';
import { protection } from '../domain/mode';
import type { Project } from '../domain/project';
import type { ConditionMatrix, MatrixCell, MatrixColumn, Plan, Segment } from '../domain/segment';
import { hardnesses, type Hardness, type Snow } from '../domain/snow';
import type { GroundProfile } from '../domain/station';
import type { SlipTables } from '../slip/tables';
import type { Party } from '../domain/rope-team';
import { rulesOf } from './allowed-modes';
import { climbsOf } from './climbs';
import { prepareLine, type PreparedLine } from './conditions';
import { decide, type Decided } from './decide';
import { paceCosts, ropeOrders } from './pace-costs';
import { paceStretches, type PacedStretch } from './pace-stretches';
import { lookupIn, type SlipLookup } from './slip-lookup';
import type { Span } from './spans';
import { isVariant, modeOf } from './states';
import { totalsOf, type Counted } from './totals';
import { addTime } from '../pace/level';
import { wayBackOf, wayThere, type Way } from './way';

export interface MatrixInput {
  readonly profile: GroundProfile;
  readonly project: Project;
  readonly figures: Figures;
  /** The plan whose segments are the rows. */
  readonly plan: Pick<Plan, 'segments'>;
  /** Built for every hardness (`snowsOnLine(project, hardnesses)`); those that are missing have no column. */
  readonly tables: SlipTables;
  /**
   * The same for `partyWithDevices`, running belay with capture devices only: needed for the columns with devices where none
   * is on the rack.
   */
  readonly deviceTables?: SlipTables;
  /** Ground under the other line, where the schedule says the team comes back by one. */
  readonly wayBackProfile?: GroundProfile;
  /** The plan is of the way back. */
  readonly isWayBack?: boolean;
  /** Called before each column with how many are done, 0 to 1. */
  readonly onProgress?: (done: number) => void;
}

/** The party with a capture device for every piece between its climbers, and one in hand. */
export function partyWithDevices(party: Party): Party {
  const { rack, climbers } = party;
  if (rack.captureDevices > 0) return party;
  return { ...party, rack: { ...rack, captureDevices: climbers.length } };
}

/**
 * The whole line planned again for every hardness, without and with capture devices: the snow found on the day replaces
 * whatever was expected, painted stretches too; marked ice stays ice, and set modes stay set.
 */
export function conditionMatrix(input: MatrixInput): ConditionMatrix {
  const { tables, deviceTables, project } = input;
  const withDevices = deviceTables ?? (project.party.rack.captureDevices > 0 ? tables : null);
  const plain = lookupIn(tables);
  const lookups: readonly { captureDevices: boolean; lookup: SlipLookup }[] = [
    { captureDevices: false, lookup: plain },
    ...(withDevices === null
      ? []
      : [{ captureDevices: true, lookup: devicesFrom(plain, lookupIn(withDevices)) }]),
  ];
  return matrixWith(lookups, input);
}

/** The same for the way back. null: there is none, or its ground is not given. */
export function wayBackMatrix(
  { wayBack }: Pick<Plan, 'wayBack'>,
  input: Omit<MatrixInput, 'plan'>,
): ConditionMatrix | null {
  const isOther = typeof input.project.schedule.wayBack !== 'string';
  if (wayBack === null || (isOther && input.wayBackProfile === undefined)) return null;
  return conditionMatrix({ ...input, plan: wayBack, isWayBack: true });
}

/** The same with any slip model. */
export function matrixWith(
  lookups: readonly { readonly captureDevices: boolean; readonly lookup: SlipLookup }[],
  input: Omit<MatrixInput, 'tables' | 'deviceTables'>,
): ConditionMatrix {
  const asked = lookups.flatMap(({ captureDevices, lookup }) =>
    hardnesses
      .filter((hardness) => lookup.knows({ hardness, wetness: input.project.snow.wetness }))
      .map((hardness) => ({ captureDevices, lookup, hardness })),
  );
  // Where stations and marks are does not depend on what is found.
  const prepared = prepareLine(wayAsked(input.project, input).line, input.figures, []);
  return {
    columns: asked.map((column, i) => {
      input.onProgress?.(i / asked.length);
      return columnOf(column, prepared, input);
    }),
  };
}

/** Capture devices from their own tables, everything else from the usual ones. */
function devicesFrom(plain: SlipLookup, withDevices: SlipLookup): SlipLookup {
  const ask = (variant: string) => (variant === 'running-capture' ? withDevices : plain);
  return {
    unheldAt: (place) => ask(place.variant).unheldAt(place),
    sharesAt: (place) => ask(place.variant).sharesAt(place),
    knows: (snow) => plain.knows(snow),
  };
}

function columnOf(
  column: { readonly captureDevices: boolean; readonly lookup: SlipLookup; readonly hardness: Hardness },
  prepared: PreparedLine,
  { project, figures, plan, ...ground }: Omit<MatrixInput, 'tables' | 'deviceTables'>,
): MatrixColumn {
  const { captureDevices, hardness, lookup } = column;
  const asFound = projectAsFound(project, hardness, captureDevices);
  const orders = ropeOrders(asFound);
  const { snow, overrides } = wayAsked(asFound, ground).line;
  const line = { ...prepared, snow, overrides };
  const rules = rulesOf(asFound, figures);
  const decided = decide(line, [], { rules, lookup, costs: paceCosts(asFound, figures, orders) });
  const context = { project: asFound, figures, orders, comesFrom: null, withEvents: () => false };
  const stretches = paceStretches(decided, context);
  const spans = stretches.map(({ span }) => span);
  return {
    hardness,
    captureDevices,
    cells: plan.segments.map((segment) => cellOf(segment, decided, spans)),
    totals: totalsOf({
      segments: countedStretches(line, stretches, figures),
      lengthM: line.lengthM,
      crossings: stretches.reduce((sum, { pace }) => sum + pace.crossings, 0),
      pickets: Math.max(0, ...stretches.map(({ pace }) => pace.pickets)),
      captureDevices: decided.states.includes('running-capture') ? rules.captureDevices : 0,
      arrive: null,
      turnRound: null,
    }),
  };
}

function wayAsked(
  project: Project,
  {
    profile,
    wayBackProfile,
    isWayBack = false,
  }: Pick<MatrixInput, 'profile' | 'wayBackProfile' | 'isWayBack'>,
): Way {
  const there = wayThere(profile, project);
  if (!isWayBack) return there;
  // Asked only of a project that has one.
  return wayBackOf(there, project, wayBackProfile)!;
}

function projectAsFound(project: Project, hardness: Hardness, captureDevices: boolean): Project {
  const found = (snow: Snow): Snow => ({ ...snow, hardness });
  const { party } = project;
  return {
    ...project,
    snow: found(project.snow),
    overrides: project.overrides.map((override) =>
      override.snow === null ? override : { ...override, snow: found(override.snow) },
    ),
    party: captureDevices
      ? partyWithDevices(party)
      : { ...party, rack: { ...party.rack, captureDevices: 0 } },
  };
}

function countedStretches(
  line: PreparedLine,
  stretches: readonly PacedStretch[],
  figures: Figures,
): Counted[] {
  const climbs = climbsOf(line.stations, figures.walking.wiggleM);
  return stretches.map(({ span, input, pace, transition }) => ({
    fromM: span.fromM,
    lengthM: span.toM - span.fromM,
    ...climbs.between(span.fromM, span.toM),
    mode: input.mode,
    time: pace.time === null ? null : addTime(pace.time, transition),
    parts:
      pace.parts === null
        ? null
        : { ...pace.parts, transitionS: pace.parts.transitionS + transition.defaultS },
    pieces: pace.pieces,
    gatherings: pace.gatherings,
    rotations: pace.rotations,
    pitches: pace.pitches,
  }));
}

function cellOf(
  segment: Pick<Segment, 'id' | 'fromM' | 'toM'>,
  decided: Decided,
  stretches: readonly Span[],
): MatrixCell {
  const parts = stretches
    .filter(({ fromM, toM }) => toM > segment.fromM && fromM < segment.toM)
    .map(({ first, fromM, toM }) => {
      const state = decided.states[first]!;
      return {
        fromM: Math.max(fromM, segment.fromM),
        toM: Math.min(toM, segment.toM),
        mode: modeOf(state),
        variant: isVariant(state) ? state : null,
      };
    });
  const first = parts[0]!;
  const joined = parts.slice(1).reduce(
    (sofar, part) => {
      const last = sofar.at(-1)!;
      const same = last.mode === part.mode && last.variant === part.variant;
      return same ? [...sofar.slice(0, -1), { ...last, toM: part.toM }] : [...sofar, part];
    },
    [first],
  );
  const most = joined.reduce(
    (best, part) => (protection[part.mode] > protection[best.mode] ? part : best),
    first,
  );
  return { segmentId: segment.id, mode: most.mode, variant: most.variant, parts: joined };
}
