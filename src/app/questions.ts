import type { Figures } from '../core/assumptions/figures';
import { hazardKinds } from '../core/domain/mark';
import type { Project } from '../core/domain/project';
import { hardnesses, type Snow } from '../core/domain/snow';
import type { GroundCalls, OpenTerrain } from '../worker/ground-calls';
import type { SlipCalls } from '../worker/slip-calls';

/** What a worker is asked, and the parts that decide whether an old answer still holds. */
export interface Question<Ask> {
  readonly ask: Ask;
  readonly parts: readonly unknown[];
}

export const isSame = (a: Question<unknown>, b: Question<unknown>): boolean =>
  a.parts.length === b.parts.length && a.parts.every((part, i) => Object.is(part, b.parts[i]));

const stepM = 5;

/** Only marks that end a slide and only figures of the slide change what the ground says. */
export function groundQuestion(
  project: Project,
  figures: Figures,
  terrain: readonly OpenTerrain[],
): Question<GroundCalls['readGround']['ask']> {
  const marks = project.marks.filter(({ kind }) => hazardKinds.has(kind));
  const rasterKeys = terrain.map(({ key }) => key);
  const sigmaZM = terrain.map(
    ({ name }) => project.terrain.find(({ fileName }) => fileName === name)?.sigmaZM ?? null,
  );
  return {
    ask: {
      positions: project.line.points.map(({ position }) => position),
      stepM,
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
        hardnesses.map((hardness) => figures.snow[hardness]),
        rasterKeys,
        sigmaZM,
      ]),
    ],
  };
}

/** Every snow that stands anywhere on the line, the main one first. */
export function slipQuestion(
  project: Project,
  figures: Figures,
): Question<Omit<SlipCalls['buildTables']['ask'], 'quality'>> {
  const snows = new Map<string, Snow>();
  for (const snow of [
    project.snow,
    ...project.overrides.map((override) => override.snow),
    ...project.schedule.snowChanges.map((change) => change.snow),
  ])
    if (snow) snows.set(`${snow.hardness} ${snow.wetness}`, snow);
  // Names of climbers and pieces on the rack decide nothing about a slip.
  const climbers = project.party.climbers.map(({ massKg, ability }) => [massKg, ability]);
  const { rope, rack } = project.party;
  const { turnsRoundGoingDown } = project;
  return {
    ask: { party: project.party, figures, snows: [...snows.values()], turnsRoundGoingDown },
    parts: [JSON.stringify([climbers, rope, rack, figures, [...snows.keys()], turnsRoundGoingDown])],
  };
}
