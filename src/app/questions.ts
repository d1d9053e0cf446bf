import type { Figures } from '../core/assumptions/figures';
import { hazardKinds } from '../core/domain/mark';
import type { Project } from '../core/domain/project';
import { hardnesses } from '../core/domain/snow';
import type { GroundCalls, OpenTerrain } from '../worker/ground-calls';
import type { SlipCalls } from '../worker/slip-calls';

/** What a worker is asked, and the parts that decide whether an old answer still holds. */
export interface Question<Ask> {
  readonly ask: Ask;
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
    ask: {
      positions: project.line.points.map(({ position }) => position),
      stepM: quality === 'whole' ? wholeStepM : quickFactor * wholeStepM,
      marks,
      figures,
      rasterKeys,
      sigmaZM,
    },
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

export type TeamAsk = Omit<SlipCalls['buildTables']['ask'], 'snows' | 'quality'>;

/** Names of climbers decide nothing about a slip. */
export function teamQuestion({ party, turnsRoundGoingDown }: Project, figures: Figures): Question<TeamAsk> {
  const climbers = party.climbers.map(({ massKg, ability }) => [massKg, ability]);
  return {
    ask: { party, figures, turnsRoundGoingDown },
    parts: [JSON.stringify([climbers, party.rope, party.rack, figures, turnsRoundGoingDown])],
  };
}
