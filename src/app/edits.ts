import type { LngLat } from '../core/domain/coordinates';
import { markName, type Mark, type MarkKind } from '../core/domain/mark';
import type { Line, LinePoint, Override, Project, Schedule, TerrainRef } from '../core/domain/project';
import type { Waypoint } from '../core/domain/track';
import { marksOf } from '../core/files/waypoint-marks';
import { joinLines } from '../core/line/edit';

/** A change to the project with the name it is undone by. */
export interface Edit {
  readonly name: string;
  readonly make: (project: Project) => Project;
}

export const newId = (): string => crypto.randomUUID().slice(0, 8);

export const drawnPoint = (position: LngLat): LinePoint => ({ position, elevationM: null, timeMs: null });

/** The points of the active line; overrides keep their distances, which is right for all but long insertions. */
export const setPoints = (name: string, points: readonly LinePoint[]): Edit => ({
  name,
  make: (project) => ({ ...project, line: { ...project.line, points } }),
});

/**
 * Another line takes the place of the active one, which is kept as an alternative, and `more` lines with it. Overrides belonged
 * to the old one.
 */
export const activateLine = (name: string, line: Line, more: readonly Line[] = []): Edit => ({
  name,
  make: (project) =>
    withWayBackThere({
      ...project,
      line,
      alternatives: [
        ...more,
        ...(project.line.points.length > 1 ? [project.line] : []),
        ...project.alternatives.filter(({ id }) => id !== line.id),
      ],
      overrides: [],
    }),
});

/** A way back by a line that is an alternative no longer: by the active one where it became that, else none. */
function withWayBackThere(project: Project): Project {
  const { line, alternatives, schedule } = project;
  const { wayBack } = schedule;
  if (typeof wayBack === 'string' || alternatives.some(({ id }) => id === wayBack.alternativeId))
    return project;
  const way = wayBack.alternativeId === line.id ? 'same-line' : 'none';
  return withSchedule(project, { ...schedule, wayBack: way });
}

/** Stretches painted on another line for the way back belong to that line; so do those on the own one. */
function withSchedule(project: Project, schedule: Schedule): Project {
  const lineOf = ({ wayBack }: Schedule) => (typeof wayBack === 'string' ? null : wayBack.alternativeId);
  if (lineOf(schedule) === lineOf(project.schedule)) return { ...project, schedule };
  return { ...project, schedule, overrides: project.overrides.filter(({ way }) => way !== 'back') };
}

export const setSchedule = (schedule: Schedule): Edit => ({
  name: 'change schedule',
  make: (project) => withSchedule(project, schedule),
});

/** Waypoints of a track file become notes, with their names; marks that we wrote become what they were. */
export const addNotes = (waypoints: readonly Waypoint[]): Edit => ({
  name: `take over ${waypoints.length} waypoints`,
  make: (project) => ({
    ...project,
    marks: [...project.marks, ...marksOf(waypoints, newId)],
  }),
});

export const addMark = (kind: MarkKind, position: LngLat, id: string): Edit => ({
  name: `place ${markName[kind]}`,
  make: (project) => ({
    ...project,
    marks: [
      ...project.marks,
      { id, kind, positions: [position], widthM: null, bridge: null, seenOn: null, note: '' },
    ],
  }),
});

export const changeMark = (mark: Mark, name = `change ${markName[mark.kind]}`): Edit => ({
  name,
  make: (project) => ({ ...project, marks: project.marks.map((old) => (old.id === mark.id ? mark : old)) }),
});

/** Another place, or a drawn extent. */
export const placeMark = (id: string, positions: readonly LngLat[]): Edit => ({
  name: positions.length > 1 ? 'draw extent of mark' : 'move mark',
  make: (project) => ({
    ...project,
    marks: project.marks.map((mark) => (mark.id === id ? { ...mark, positions } : mark)),
  }),
});

export const removeMark = (mark: Mark): Edit => ({
  name: `remove ${markName[mark.kind]}`,
  make: (project) => ({ ...project, marks: project.marks.filter(({ id }) => id !== mark.id) }),
});

/** Adds or replaces by id. */
export const setOverride = (override: Override): Edit => ({
  name: `override ${Math.round(override.fromM)} to ${Math.round(override.toM)} m`,
  make: (project) => ({
    ...project,
    overrides: [...project.overrides.filter(({ id }) => id !== override.id), override].sort(
      (a, b) => a.fromM - b.fromM,
    ),
  }),
});

/** A stretch to be given its own snow, mode or run-out. */
export const newStretch = (fromM: number, toM: number): Edit =>
  setOverride({ id: newId(), way: 'both', fromM, toM, mode: null, snow: null, runOut: null, note: '' });

export const drawnLine = (positions: readonly LngLat[]): Edit =>
  activateLine('draw line', { id: newId(), name: 'Drawn line', points: positions.map(drawnPoint) });

export const removeOverride = (override: Override): Edit => ({
  name: 'take override away',
  make: (project) => ({ ...project, overrides: project.overrides.filter(({ id }) => id !== override.id) }),
});

/** The team and its snow stay, all that belongs to the place goes. */
export const emptied = (project: Project, name: string): Project => ({
  ...project,
  name,
  line: { id: newId(), name: '', points: [] },
  alternatives: [],
  marks: [],
  overrides: [],
  terrain: [],
  notes: '',
  schedule: { ...project.schedule, snowChanges: [], wayBack: 'none' },
});

/** Own ground or an own line far from what is shown. */
export const startElsewhere = (name: string, edit: Edit): Edit => ({
  name: edit.name,
  make: (project) => edit.make(emptied(project, name)),
});

/** A raster opened beside those already there, or again. */
export const addTerrain = (ref: TerrainRef): Edit => ({
  name: `open ${ref.fileName}`,
  make: (project) => ({
    ...project,
    terrain: [...project.terrain.filter(({ fileName }) => fileName !== ref.fileName), ref],
  }),
});

export const replaceProject = (name: string, project: Project): Edit => ({ name, make: () => project });

export const setField = <K extends keyof Project>(field: K, value: Project[K], name: string): Edit => ({
  name,
  make: (project) => ({ ...project, [field]: value }),
});

export const keepAsAlternative: Edit = {
  name: 'keep a copy as alternative',
  make: (project) => ({
    ...project,
    alternatives: [
      ...project.alternatives,
      { ...project.line, id: newId(), name: `${project.line.name}, copy ${project.alternatives.length + 1}` },
    ],
  }),
};

export const removeAlternative = (line: Line): Edit => ({
  name: `remove ${line.name}`,
  make: (project) =>
    withWayBackThere({
      ...project,
      alternatives: project.alternatives.filter(({ id }) => id !== line.id),
    }),
});

/** The other line goes on from the end of the active one. */
export const joinWith = (other: Line): Edit => ({
  name: `join ${other.name}`,
  make: (project) =>
    withWayBackThere({
      ...project,
      line: { ...project.line, points: joinLines(project.line.points, other.points) },
      alternatives: project.alternatives.filter(({ id }) => id !== other.id),
    }),
});

export const changeTerrain = (ref: TerrainRef, name: string): Edit => ({
  name,
  make: (project) => ({
    ...project,
    terrain: project.terrain.map((old) => (old.fileName === ref.fileName ? ref : old)),
  }),
});

export const removeTerrain = (fileName: string): Edit => ({
  name: `take ${fileName} away`,
  make: (project) => ({
    ...project,
    terrain: project.terrain.filter((ref) => ref.fileName !== fileName),
  }),
});
