import type { Figures } from '../core/assumptions/figures';
import { hazardKinds } from '../core/domain/mark';
import type { Project } from '../core/domain/project';
import { hardnesses } from '../core/domain/snow';
import type { GroundCalls, OpenTerrain } from '../worker/ground-calls';
import type { SlipCalls } from '../worker/slip-calls';

/** What a worker is asked, and the parts that decide whether an old answer still holds. */
export interface Question<Ask> {
  /** Made when it is asked: a long line is not laid out for a question whose answer is at hand. */
  readonly ask: () => Ask;
  readonly parts: readonly unknown[];
}

export const isSame = (a: Question<unknown>, b: Question<unknown>): boolean =>
  a.parts.length === b.parts.length && a.parts.every((part, i) => Object.is(part, b.parts[i]));

const usualStepM = 5;
/** How much wider apart stations stand in the first, quick reading. */
const quickFactor = 4;

/**
 * Stations every 5 m, never farther apart than half a cell; `quick` is a first look, for a plan that says it is settling.
 * Only marks that end a slide and only figures of the slide change what the ground says.
 */
export function groundQuestion(
  project: Project,
  figures: Figures,
  terrain: readonly OpenTerrain[],
  quality: 'quick' | 'whole',
): Question<GroundCalls['readGround']['ask']> {
  const marks = project.marks.filter(({ kind }) => hazardKinds.has(kind));
  const rasterKeys = terrain.map(({ key }) => key);
  const sigmaZM = terrain.map(
    ({ name }) => project.terrain.find(({ fileName }) => fileName === name)?.sigmaZM ?? null,
  );
  const wholeStepM = Math.min(usualStepM, ...terrain.map(({ cellM }) => cellM / 2));
  return {
    ask: () => ({
      lngLats: lngLatsOf(project),
      stepM: quality === 'whole' ? wholeStepM : quickFactor * wholeStepM,
      marks,
      figures,
      rasterKeys,
      sigmaZM,
    }),
    parts: [
      project.line.points,
      JSON.stringify([
        marks.map(({ kind, positions, widthM }) => [kind, positions, widthM]),
        figures.runOut,
        figures.ground,
        hardnesses.map((hardness) => figures.snow[hardness]),
        rasterKeys,
        sigmaZM,
      ]),
    ],
  };
}

function lngLatsOf({ line: { points } }: Project): Float64Array<ArrayBuffer> {
  const lngLats = new Float64Array(2 * points.length);
  points.forEach(({ position: [lngDeg, latDeg] }, i) => {
    lngLats[2 * i] = lngDeg;
    lngLats[2 * i + 1] = latDeg;
  });
  return lngLats;
}

/**
 * The project as planning needs it: the line is in the ground already, and its thousands of points would be copied to the
 * worker with every change.
 */
export const withoutPoints = (project: Project): Project => ({
  ...project,
  line: { ...project.line, points: [] },
  alternatives: project.alternatives.map((line) => ({ ...line, points: [] })),
});

export type TeamAsk = Omit<SlipCalls['buildTables']['ask'], 'snows' | 'quality'>;

/** Names of climbers decide nothing about a slip, nor does how many pickets are carried. */
export function teamQuestion({ party, turnsRoundGoingDown }: Project, figures: Figures): Question<TeamAsk> {
  const climbers = party.climbers.map(({ massKg, ability }) => [massKg, ability]);
  const { captureDevices } = party.rack;
  return {
    ask: () => ({ party, figures, turnsRoundGoingDown }),
    parts: [JSON.stringify([climbers, party.rope, captureDevices, figures, turnsRoundGoingDown])],
  };
}
