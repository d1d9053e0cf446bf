import { applyFigures } from '../assumptions/apply';
import { defaultFigures } from '../assumptions/figures';
import { abilityName } from '../domain/rope-team';
import type { Project } from '../domain/project';
import type { ConditionMatrix, Plan } from '../domain/segment';
import { hardnessName, wetnessName } from '../domain/snow';
import type { TerrainSummary } from '../domain/station';
import {
  countText,
  forceText,
  lengthText,
  massText,
  noneText,
  riseText,
  shortLengthText,
  unknownText,
} from '../wording/numbers';
import { clockSinceText, durationText, rangeText, utcText } from '../wording/time';
import { instantsOf } from '../wording/zone';
import { terrainSaid } from '../plan/terrain-said';
import type { Units } from '../wording/units';
import { cautions } from './cautions';
import { declinationFor, type Declination } from './declination';
import { el } from './markup';
import type { Fact, SheetClock, SheetData, SheetWay } from './sheet-data';
import { sheetMap } from './sheet-map';
import { sheetMatrix } from './sheet-matrix';
import { crossingPlaces, rescuePlaces } from './sheet-places';
import { sheetRibbon } from './sheet-ribbon';
import { sheetRows } from './sheet-rows';
import { assumptionLines, terrainFacts } from './sheet-sources';
import { sheetWarnings } from './sheet-warnings';
import { rescueNumbers, signals } from './signals';
import { stateMark } from './state-mark';
import { whiteout } from './whiteout';

export interface SheetInput {
  readonly plan: Plan;
  readonly project: Project;
  readonly terrain: readonly TerrainSummary[];
  /** null: not computed; the sheet says so. */
  readonly matrix: ConditionMatrix | null;
  /** The same for the way back. */
  readonly wayBackMatrix?: ConditionMatrix | null;
  readonly units?: Units;
  /** When the sheet is made, ISO with offset. Absent: not said. */
  readonly madeAt?: string;
}

/** The sheet of a plan: every word and figure that is printed. */
export function makeSheet({
  plan,
  project,
  terrain,
  matrix,
  wayBackMatrix = null,
  units = 'metric',
  madeAt,
}: SheetInput): SheetData {
  const start = plan.segments[0]?.arrive ?? null;
  const onDate = project.schedule.start ?? madeAt ?? null;
  const middle = plan.stations[Math.floor(plan.stations.length / 2)];
  const { declinationDeg } = project.schedule;
  const declination = middle ? declinationFor(middle.position, onDate, declinationDeg) : null;
  const terrainLines = terrainFacts(terrainSaid(terrain, project), plan.stations, onDate, units);
  const isPartial = plan.totals.notComputedBeyondM !== null;
  const about = { project, declination, units };
  const ways = [wayOf('there', project.line.name, plan, matrix, about)];
  if (plan.wayBack) ways.push(wayOf('back', 'Way back', plan.wayBack, wayBackMatrix, about));
  const everySegment = [...plan.segments, ...(plan.wayBack?.segments ?? [])];
  const figures = applyFigures(project.assumptions);
  const deviceKN = (figures.ok ? figures.value : defaultFigures).piece.captureDeviceKN;

  return {
    title: project.name,
    lineName: project.line.name,
    made: madeAt === undefined ? '' : `${madeAt.slice(0, 16).replace('T', ' ')} (${utcText(madeAt)})`,
    state: stateMark(project),
    headline: `${isPartial ? 'at least ' : ''}${durationText(plan.totals.time.defaultS)} (${rangeText(plan.totals.time)})`,
    headlineNote: isPartial
      ? `Not computed beyond ${lengthText(plan.totals.notComputedBeyondM, units)}.`
      : '',
    clock: start === null ? [] : clockOf(plan, project, start),
    totals: totalFacts(plan, units),
    warnings: sheetWarnings(plan.warnings, units),
    ways,
    team: teamFacts(project, units),
    crossings: [plan, ...(plan.wayBack ? [plan.wayBack] : [])].flatMap((way) =>
      crossingPlaces(way, project.marks, units),
    ),
    declination:
      declination?.text ??
      'Magnetic declination not computed: no date was given. Bearings are from true north.',
    sources: terrainLines,
    assumptions: assumptionLines(project),
    ownNotes: project.notes,
    cautions: cautions({
      usesCaptureDevices: everySegment.some((segment) => segment.variant === 'running-capture'),
      clipsPastPieces: everySegment.some((segment) => segment.mode === 'running-belay'),
      deviceLimit: forceText(deviceKN, units),
      terrain: terrainLines.map(({ label, text }) => `Elevation data ${label}: ${text}.`),
      snowMade: snowMadeText(madeAt, project),
      turnRound: turnRoundText(plan, start),
      clock: clockText(project, start),
    }),
    signals,
    rescueNumbers,
  };
}

interface AboutWay {
  readonly project: Project;
  readonly declination: Declination | null;
  readonly units: Units;
}

function wayOf(
  key: string,
  title: string,
  plan: Plan,
  matrix: ConditionMatrix | null,
  { project, declination, units }: AboutWay,
): SheetWay {
  return {
    title,
    rows: sheetRows(plan, project.marks, project.snow, units),
    ribbon: sheetRibbon(plan, units, `sheet-${key}`),
    map: sheetMap(plan, project.marks, units) ?? {
      drawing: el('p', {}, 'No map: the line has fewer than two points.'),
      isNarrow: false,
    },
    pocketMap: sheetMap(plan, project.marks, units, 'narrow')?.drawing ?? null,
    matrix: matrix && sheetMatrix(matrix, plan, project.snow, project.party.rack.captureDevices > 0),
    whiteout: whiteout(plan, declination, units),
    places: rescuePlaces(plan, units),
  };
}

/** The day's times, local and in UTC. */
function clockOf({ totals, segments, wayBack }: Plan, { schedule }: Project, start: string): SheetClock[] {
  const at = (label: string, iso: string | null, why: string): SheetClock => ({
    label,
    time: iso === null ? null : clockSinceText(iso, start),
    more: iso === null ? why : utcText(iso),
  });
  const [backByMs] = schedule.backBy === null ? [] : instantsOf(schedule.backBy, schedule.zone);
  return [
    at('Start', start, ''),
    at('Arrival', totals.arrive ?? segments.at(-1)?.leave ?? null, 'not computed'),
    at('Turn round by', totals.turnRound, 'not computed'),
    ...(wayBack === null ? [] : [at('Back at', wayBack.totals.arrive, 'not computed')]),
    {
      label: 'Back by',
      time: schedule.backBy === null ? null : clockSinceText(schedule.backBy, start),
      more: backByMs === undefined ? 'not said' : utcText(new Date(backByMs).toISOString()),
    },
  ];
}

function totalFacts({ totals }: Plan, units: Units): Fact[] {
  const parts = totals.parts;
  const spent: [string, number][] = [
    ['walking', parts.walkingS],
    ['placing', parts.placementS],
    ['gathering', parts.gatheringS],
    ['pitching', parts.pitchingS],
    ['crossing', parts.crossingS],
    ['changing over', parts.transitionS],
  ];
  return [
    {
      label: 'Length and rise',
      text: `${lengthText(totals.lengthM, units)}, ${riseText(totals.ascentM, totals.descentM, units)}`,
    },
    {
      label: 'Of which',
      text: spent
        .filter(([, seconds]) => seconds > 0)
        .map(([label, seconds]) => `${label} ${durationText(seconds)}`)
        .join(', '),
    },
    { label: 'Gear and stops', text: gearText(totals) },
  ];
}

function gearText(totals: Plan['totals']): string {
  const counts = [
    countText(totals.pieces, 'piece placed', 'pieces placed'),
    countText(totals.pickets, 'picket needed at once', 'pickets needed at once'),
    countText(totals.captureDevices, 'capture device'),
    countText(totals.gatherings, 'gathering'),
    countText(totals.rotations, 'rotation'),
    countText(totals.pitches, 'pitch', 'pitches'),
    countText(totals.crossings, 'crossing'),
  ].filter((words) => words !== noneText);
  return counts.length === 0 ? noneText : counts.join(', ');
}

function teamFacts({ party, snow }: Project, units: Units): Fact[] {
  const { rope, rack } = party;
  const ropeMore = [
    rope.brakeKnots ? 'brake knots' : '',
    rope.lowStretch ? 'low-stretch cord: no lead falls' : '',
  ];
  return [
    {
      label: 'On the rope, lead first',
      text: party.climbers
        .map(
          (one) =>
            `${one.name} ${massText(one.massKg, units)}, ${abilityName[one.ability]}${one.mayLead ? ', may lead' : ''}`,
        )
        .join(' · '),
    },
    {
      label: 'Rope',
      text: [
        shortLengthText(rope.lengthM, units),
        `${shortLengthText(rope.intervalM, units)} between neighbours`,
        `label ${forceText(rope.impactForceKN, units)}, ${rope.staticElongationPct} % static`,
        ...ropeMore.filter((words) => words !== ''),
      ].join(', '),
    },
    { label: 'Rack', text: `${rack.pickets} pickets, ${rack.captureDevices} capture devices` },
    { label: 'Snow planned for', text: `${hardnessName[snow.hardness]}, ${wetnessName[snow.wetness]}` },
  ];
}

const snowMadeText = (madeAt: string | undefined, { schedule }: Project): string =>
  [
    madeAt === undefined ? 'time of the guess not recorded' : `as it stood on ${madeAt.slice(0, 10)}`,
    schedule.start === null ? '' : `for ${schedule.start.slice(0, 10)}`,
  ]
    .filter((words) => words !== '')
    .join(', ');

function turnRoundText({ totals }: Plan, start: string | null): string {
  if (totals.turnRound === null) return 'Turn-round time: not computed. Set your own: ________';
  return `Turn round by ${clockSinceText(totals.turnRound, start)} (${utcText(totals.turnRound)}), wherever you are.`;
}

function clockText({ schedule }: Project, start: string | null): string {
  if (start === null) return 'No start time was given: no clock times.';
  const offset = /(?:[+-]\d{2}:\d{2}|Z)$/.exec(start)?.[0] ?? unknownText;
  return `Clock times are local, ${schedule.zone} (UTC${offset === 'Z' ? '+00:00' : offset.replace('-', '\u2212')}); ${clockSinceText(start, start)} is ${utcText(start)}.`;
}
