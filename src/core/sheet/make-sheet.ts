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
  stretchText,
  unknownText,
} from '../wording/numbers';
import { clockSinceText, durationText, rangeText, utcText } from '../wording/time';
import { terrainSaid } from '../plan/terrain-said';
import type { Units } from '../wording/units';
import { cautions } from './cautions';
import { declinationAt, type Declination } from './declination';
import { el } from './markup';
import type { Fact, SheetData, SheetWay } from './sheet-data';
import { sheetMap } from './sheet-map';
import { sheetMatrix } from './sheet-matrix';
import { crossingPlaces, rescuePlaces } from './sheet-places';
import { sheetRibbon } from './sheet-ribbon';
import { sheetRows } from './sheet-rows';
import { assumptionLines, terrainFacts } from './sheet-sources';
import { rescueNumbers, signals } from './signals';
import { whiteout } from './whiteout';

export interface SheetInput {
  readonly plan: Plan;
  readonly project: Project;
  readonly terrain: readonly TerrainSummary[];
  /** null: not computed; the sheet says so. */
  readonly matrix: ConditionMatrix | null;
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
  units = 'metric',
  madeAt,
}: SheetInput): SheetData {
  const start = plan.segments[0]?.arrive ?? null;
  const onDate = project.schedule.start ?? madeAt ?? null;
  const middle = plan.stations[Math.floor(plan.stations.length / 2)];
  const declination = middle ? declinationAt(middle.position, onDate) : null;
  const terrainLines = terrainFacts(terrainSaid(terrain, project), plan.stations, onDate, units);
  const isPartial = plan.totals.notComputedBeyondM !== null;
  const ways = [wayOf('there', project.line.name, plan, project, declination, units)];
  if (plan.wayBack) ways.push(wayOf('back', 'Way back', plan.wayBack, project, declination, units));
  const everySegment = [...plan.segments, ...(plan.wayBack?.segments ?? [])];
  const figures = applyFigures(project.assumptions);
  const deviceKN = (figures.ok ? figures.value : defaultFigures).piece.captureDeviceKN;

  return {
    title: project.name,
    lineName: project.line.name,
    made: madeAt === undefined ? '' : `${madeAt.slice(0, 16).replace('T', ' ')} (${utcText(madeAt)})`,
    headline: `${isPartial ? 'at least ' : ''}${durationText(plan.totals.time.defaultS)} (${rangeText(plan.totals.time)})`,
    headlineNote: isPartial
      ? `Not computed beyond ${lengthText(plan.totals.notComputedBeyondM, units)}.`
      : '',
    totals: totalFacts(plan, project, start, units),
    warnings: [...plan.warnings]
      .sort((a, b) => b.weight - a.weight)
      .map(({ weight, text, fromM, toM }) => ({
        weight,
        text,
        place: fromM === null ? '' : stretchText(fromM, toM ?? fromM, units),
      })),
    ways,
    matrix: matrix && sheetMatrix(matrix, plan, project.snow, project.party.rack.captureDevices > 0),
    team: teamFacts(project, units),
    crossings: [plan, ...(plan.wayBack ? [plan.wayBack] : [])].flatMap((way) =>
      crossingPlaces(way, project.marks, units),
    ),
    places: rescuePlaces(plan, units),
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

function wayOf(
  key: string,
  title: string,
  plan: Plan,
  project: Project,
  declination: Declination | null,
  units: Units,
): SheetWay {
  return {
    title,
    rows: sheetRows(plan, project.marks, units),
    ribbon: sheetRibbon(plan, units, `sheet-${key}`),
    map: sheetMap(plan, project.marks, units) ?? el('p', {}, 'No map: the line has fewer than two points.'),
    whiteout: whiteout(plan, declination, units),
  };
}

function totalFacts(
  { totals, segments }: Plan,
  project: Project,
  start: string | null,
  units: Units,
): Fact[] {
  const parts = totals.parts;
  const spent: [string, number][] = [
    ['walking', parts.walkingS],
    ['placing', parts.placementS],
    ['gathering', parts.gatheringS],
    ['pitching', parts.pitchingS],
    ['crossing', parts.crossingS],
    ['changing over', parts.transitionS],
  ];
  const clock =
    start === null
      ? []
      : [
          { label: 'Start', text: `${clockSinceText(start, start)} (${utcText(start)})` },
          { label: 'Arrival', text: clockSinceText(totals.arrive ?? segments.at(-1)?.leave ?? null, start) },
          { label: 'Turn round by', text: clockSinceText(totals.turnRound, start) },
          { label: 'Back by', text: project.schedule.backBy?.slice(11, 16) ?? 'not said' },
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
    ...clock,
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
