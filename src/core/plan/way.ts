import type { LngLat } from '../domain/coordinates';
import type { LinePoint, Override, Project, SnowChange } from '../domain/project';
import type { GroundProfile, Station } from '../domain/station';
import type { LineToPlan } from './conditions';
import { chordM } from './local-plane';

/** A line as it is gone, with the snow that changes on it. */
export interface Way {
  readonly line: LineToPlan;
  readonly snowChanges: readonly SnowChange[];
}

export function wayThere({ stations, lengthM }: GroundProfile, project: Project): Way {
  const { snow, marks, schedule } = project;
  const overrides = paintedThere(project);
  return { line: { stations, lengthM, snow, overrides, marks }, snowChanges: schedule.snowChanges };
}

/**
 * The points of the other line by which the team comes back, from the end that is nearer to where the way there ends: two lines
 * to one summit are drawn from below. The same points give the same list. null: none, none that is there, or one without a
 * second point.
 */
export function pointsBack(
  { alternatives, schedule: { wayBack } }: Project,
  endsAt: LngLat | undefined,
): readonly LinePoint[] | null {
  if (typeof wayBack === 'string') return null;
  const points = alternatives.find(({ id }) => id === wayBack.alternativeId)?.points ?? [];
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined || points.length < 2) return null;
  if (endsAt === undefined || chordM(first.position, endsAt) <= chordM(last.position, endsAt)) return points;
  const known = turnedPoints.get(points) ?? points.toReversed();
  turnedPoints.set(points, known);
  return known;
}

const turnedPoints = new WeakMap<readonly LinePoint[], readonly LinePoint[]>();

/** The way back that the project asks for. null: none, or by another line whose ground is not known. */
export function wayBackOf(there: Way, project: Project, otherGround: GroundProfile | undefined): Way | null {
  const { wayBack } = project.schedule;
  if (wayBack === 'none') return null;
  if (wayBack === 'same-line') return sameLineBack(there, project);
  return otherGround === undefined ? null : otherLineBack(otherGround, there, project);
}

/** What is painted on the way there. */
export const paintedThere = ({ overrides }: Project): Override[] =>
  oneWayLast(overrides.filter(({ way }) => way !== 'back'));

/** What is painted on the way back, by distances from where that begins; `lengthM` of it. */
export function paintedBack({ overrides, schedule }: Project, lengthM: number): Override[] {
  if (typeof schedule.wayBack !== 'string') return overrides.filter(({ way }) => way === 'back');
  return oneWayLast(overrides.filter(({ way }) => way !== 'there')).map((each) => turned(each, lengthM));
}

/** The last of several counts: what is said of one way goes before what is said of both. */
const oneWayLast = (overrides: readonly Override[]): Override[] => [
  ...overrides.filter(({ way }) => way === 'both'),
  ...overrides.filter(({ way }) => way !== 'both'),
];

/** The same line from its end: distances run from there, so stretches are turned too. */
function sameLineBack({ line, snowChanges }: Way, project: Project): Way {
  return {
    line: {
      ...line,
      stations: line.stations.map((station) => turnedStation(station, line.lengthM)).reverse(),
      overrides: paintedBack(project, line.lengthM),
    },
    snowChanges: snowChanges.map((change) => turned(change, line.lengthM)),
  };
}

const turned = <T extends { readonly fromM: number; readonly toM: number }>(
  stretch: T,
  lengthM: number,
): T => ({
  ...stretch,
  fromM: lengthM - stretch.toM,
  toM: lengthM - stretch.fromM,
});

/**
 * Another line: what was painted by distance on the way there is not taken over, only what is painted on this one. Snow that changes on the whole way
 * there changes on the whole way back too.
 */
function otherLineBack({ stations, lengthM }: GroundProfile, there: Way, project: Project): Way {
  const { snow, marks } = project;
  const overrides = paintedBack(project, lengthM);
  const snowChanges = there.snowChanges
    .filter((change) => isOnWholeLine(change, there.line.lengthM))
    .map((change) => ({ ...change, fromM: 0, toM: lengthM }));
  return { line: { stations, lengthM, snow, overrides, marks }, snowChanges };
}

/** Ends of a stretch that was drawn over a whole line may be off by this much, metres. */
const wholeToM = 1;

export const isOnWholeLine = ({ fromM, toM }: SnowChange, lengthM: number): boolean =>
  fromM <= wholeToM && toM >= lengthM - wholeToM;

function turnedStation(station: Station, lengthM: number): Station {
  return {
    ...station,
    alongM: lengthM - station.alongM,
    bearingDeg: (station.bearingDeg + 180) % 360,
    gradeDeg: station.gradeDeg === null ? null : -station.gradeDeg,
  };
}
