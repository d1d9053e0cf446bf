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
} from '../wording/numbers';
import { clockSinceText, durationText, rangeText, utcText } from '../wording/time';
import { toMgrs } from '../line/mgrs';
import { timePartNames } from '../wording/time-parts';
import { hasNoTurnRound, turnRoundText } from '../plan/turn-round';
import { instantsOf } from '../wording/zone';
import { terrainSaid } from '../plan/terrain-said';
import type { Units } from '../wording/units';
import { cautions } from './cautions';
import { declinationFor, type Declination } from './declination';
import { el } from './markup';
import type { Fact, SheetClock, SheetData, SheetWay } from './sheet-data';
import { sheetMap } from './sheet-map';
import { sheetMatrix } from './sheet-matrix';
import { crossingPlaces, placesOnce, rescuePlaces } from './sheet-places';
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
  const about = { project, declination, units };
  const ways = [wayOf('there', plan.wayBack === null ? 'On the way' : 'There', plan, matrix, about)];
  if (plan.wayBack) ways.push(wayOf('back', 'Back', plan.wayBack, wayBackMatrix, about));
  const everySegment = [...plan.segments, ...(plan.wayBack?.segments ?? [])];
  const figures = applyFigures(project.assumptions);
  const deviceKN = (figures.ok ? figures.value : defaultFigures).piece.captureDeviceKN;

  return {
    title: project.name,
    lineName: project.line.name,
    zone: start === null ? '' : `times: ${project.schedule.zone} and UTC`,
    made: madeAt === undefined ? '' : `${madeAt.slice(0, 16).replace('T', ' ')} (${utcText(madeAt)})`,
    state: stateMark(project),
    clock: start === null ? [] : clockOf(plan, project, start),
    units: units === 'metric' ? { long: 'km', short: 'm' } : { long: 'mi', short: 'ft' },
    warnings: sheetWarnings(plan, units),
    ways,
    team: teamFacts(project, units),
    crossings: crossingPlaces(plan, project.marks, units),
    places: placesOnce([plan, ...(plan.wayBack ? [plan.wayBack] : [])], units),
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
      snowMade: snowMadeText(madeAt, project),
      turnRound: turnRoundSentence(plan),
      clock: clockText(start),
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

/** A4 with its margins is the narrower paper. CSS pixels. */
const [paperWidthPx, besidePx] = [721, 14];

function wayOf(
  key: 'there' | 'back',
  title: string,
  plan: Plan,
  matrix: ConditionMatrix | null,
  { project, declination, units }: AboutWay,
): SheetWay {
  const map = sheetMap(plan, project.marks, units);
  const square = squareOf(plan);
  const isSameLine = key === 'back' && project.schedule.wayBack === 'same-line';
  const widthPx = paperWidthPx - (map === null ? 0 : map.widthPx + besidePx);
  return {
    title,
    summary: summaryOf(plan, units),
    hours: hoursOf(plan),
    rows: sheetRows(plan, project.marks, project.snow, units, { square, saysCrossings: !isSameLine }),
    square,
    drawn: isSameLine
      ? null
      : {
          map: map?.drawing ?? el('p', {}, 'No map: the line has fewer than two points.'),
          ribbon: sheetRibbon(plan, units, `sheet-${key}`, { widthPx, elevationPx: 36, slopePx: 20 }),
        },
    pocketMap: sheetMap(plan, project.marks, units, 'pocket')?.drawing ?? null,
    matrix: matrix && sheetMatrix(matrix, plan, project.snow, project.party.rack.captureDevices > 0),
    whiteout: whiteout(plan, declination, units),
    places: rescuePlaces(plan, units),
  };
}

/** The square of 100 km that all segments begin in. */
function squareOf({ segments, stations }: Plan): string | null {
  const starts = segments.map(({ fromM }) => stations.find((one) => one.alongM >= fromM)?.position);
  const squares = new Set(starts.map((position) => (position ? toMgrs(position, 0) : null)));
  const [only = null, ...others] = squares;
  return others.length === 0 ? only : null;
}

/** The day's times, local and in UTC. */
function clockOf(plan: Plan, { schedule }: Project, start: string): SheetClock[] {
  const { totals, segments, wayBack } = plan;
  const at = (label: string, iso: string | null, why: string): SheetClock => ({
    label,
    time: iso === null ? null : clockSinceText(iso, start),
    more: iso === null ? why : utcText(iso),
  });
  const [backByMs] = schedule.backBy === null ? [] : instantsOf(schedule.backBy, schedule.zone);
  return [
    at('Start', start, ''),
    at('Arrival', totals.arrive ?? segments.at(-1)?.leave ?? null, 'not computed'),
    at('Turn round by', totals.turnRound, hasNoTurnRound(plan) ? turnRoundText(plan) : 'not computed'),
    ...(wayBack === null ? [] : [at('Back at', wayBack.totals.arrive, 'not computed')]),
    {
      label: 'Back by',
      time: schedule.backBy === null ? null : clockSinceText(schedule.backBy, start),
      more: backByMs === undefined ? 'not said' : utcText(new Date(backByMs).toISOString()),
    },
  ];
}

/** Time, length and rise, gear and stops. */
const summaryOf = ({ totals }: Plan, units: Units): string[] => [
  timeText(totals, units),
  `${lengthText(totals.lengthM, units)}, ${riseText(totals.ascentM, totals.descentM, units)}`,
  gearText(totals),
];

/** `4 h 01 (3 h 10 – 6 h 20)`; where it could not be computed to the end it says so. */
function timeText({ time, notComputedBeyondM }: Plan['totals'], units: Units): string {
  const isPartial = notComputedBeyondM !== null;
  const span = `${durationText(time.defaultS)} (${rangeText(time)})`;
  return isPartial ? `at least ${span}, not computed beyond ${lengthText(notComputedBeyondM, units)}` : span;
}

const hoursOf = ({ totals }: Plan): Fact[] =>
  timePartNames
    .filter(([, key]) => totals.parts[key] > 0)
    .map(([label, key]) => ({ label, text: durationText(totals.parts[key]) }));

function gearText(totals: Plan['totals']): string {
  const counts = [
    countText(totals.pieces, 'piece'),
    countText(totals.pickets, 'picket at once', 'pickets at once'),
    countText(totals.captureDevices, 'device'),
    countText(totals.gatherings, 'gathering'),
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
      label: 'lead first',
      text: party.climbers
        .map(
          (one) =>
            `${one.name} ${massText(one.massKg, units)}, ${abilityName[one.ability]}${one.mayLead ? ', may lead' : ''}`,
        )
        .join(' · '),
    },
    {
      label: 'rope',
      text: [
        shortLengthText(rope.lengthM, units),
        `${shortLengthText(rope.intervalM, units)} between neighbours`,
        `label ${forceText(rope.impactForceKN, units)}, ${rope.staticElongationPct} % static`,
        ...ropeMore.filter((words) => words !== ''),
      ].join(', '),
    },
    { label: 'rack', text: `${rack.pickets} pickets, ${rack.captureDevices} capture devices` },
    { label: 'snow', text: `${hardnessName[snow.hardness]}, ${wetnessName[snow.wetness]}` },
  ];
}

const snowMadeText = (madeAt: string | undefined, { schedule }: Project): string =>
  [
    madeAt === undefined ? 'time of the guess not recorded' : `as it stood on ${madeAt.slice(0, 10)}`,
    schedule.start === null ? '' : `for ${schedule.start.slice(0, 10)}`,
  ]
    .filter((words) => words !== '')
    .join(', ');

/** The time itself stands large among the day's times; here what it hangs on. */
function turnRoundSentence(plan: Plan): string {
  const { totals, warnings } = plan;
  if (hasNoTurnRound(plan)) return 'No time to turn round: the way back alone takes too long.';
  if (totals.turnRound === null) return 'Turn-round time: not computed. Set your own: ________';
  const slow = warnings.find(({ code }) => code === 'turn-round');
  return slow?.text ?? `Turn round by ${turnRoundText(plan)}.`;
}

/** Zone and UTC stand beside the day's times. */
const clockText = (start: string | null): string =>
  start === null ? 'No start time was given: no clock times.' : '';
