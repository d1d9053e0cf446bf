import type { Mark } from '../core/domain/mark';
import type { Project, TerrainRef } from '../core/domain/project';
import type { Plan } from '../core/domain/segment';
import { hardnessName, wetnessName } from '../core/domain/snow';
import { countText, shortLengthText } from '../core/wording/numbers';
import type { Units } from '../core/wording/units';
import type { OpenTerrain } from '../worker/ground-calls';
import { groundLine } from './ledger/totals-wording';
import type { Step } from './side-pages';

/** How a step of the preparation stands, in a few words. */
export interface StepState {
  readonly text: string;
  /** Without it there is no plan, or none worth having. */
  readonly isMissing: boolean;
}

/** Everything the steps speak of. */
export interface Prepared {
  readonly project: Project;
  readonly plan: Plan | null;
  readonly opened: Readonly<Record<string, OpenTerrain>>;
  readonly units: Units;
}

const there = (text: string): StepState => ({ text, isMissing: false });
const missing = (text: string): StepState => ({ text, isMissing: true });

/** Each step of the preparation with the words beside it. */
export const stepState: Readonly<Record<Step, (prepared: Prepared) => StepState>> = {
  line: ({ project, plan, units }) => {
    if (project.line.points.length < 2) return missing('none yet');
    if (!plan) return there(countText(project.line.points.length, 'point'));
    return there(groundLine(plan.totals, units));
  },
  ground: ({ project, opened, units }) => {
    if (project.terrain.length === 0) return missing('none yet: no modes without it');
    const away = project.terrain.filter(({ fileName }) => !opened[fileName]);
    if (away.length > 0) return missing(`${away.map(({ fileName }) => fileName).join(', ')} is not open`);
    return there(project.terrain.map((ref) => groundText(ref, opened[ref.fileName], units)).join('; '));
  },
  marks: ({ project: { marks } }) => {
    if (marks.length === 0) return there('none');
    const crossings = marks.filter(isCrossing).length;
    if (crossings === marks.length) return there(countText(crossings, 'crossing'));
    const all = countText(marks.length, 'mark');
    return there(crossings === 0 ? all : `${all}, ${crossings} of them crossings`);
  },
  team: ({ project: { party }, units }) =>
    there(
      [
        `${party.climbers.length} on ${shortLengthText(party.rope.lengthM, units)}`,
        party.rack.pickets === 0 ? 'no pickets' : countText(party.rack.pickets, 'picket'),
        ...(party.rack.captureDevices > 0 ? [countText(party.rack.captureDevices, 'capture device')] : []),
      ].join(', '),
    ),
  snow: ({ project: { snow, overrides } }) => {
    const own = overrides.filter((override) => override.snow !== null).length;
    const whole = `${hardnessName[snow.hardness]}, ${wetnessName[snow.wetness]}`;
    return there(own === 0 ? whole : `${whole}; ${countText(own, 'stretch', 'stretches')} of other snow`);
  },
  day: ({ project: { schedule } }) => {
    const { start, backBy, snowChanges } = schedule;
    const words = [
      start === null ? 'no start time' : `start ${start.slice(11)}`,
      ...(backBy === null ? [] : [`back by ${backBy.slice(11)}`]),
      ...(snowChanges.length === 0
        ? []
        : [countText(snowChanges.length, 'change of snow', 'changes of snow')]),
    ];
    return there(words.join(', '));
  },
  assumptions: ({ project }) => {
    const changed = Object.keys(project.assumptions).length;
    return there(changed === 0 ? 'all at their defaults' : `${changed} changed`);
  },
};

const isCrossing = ({ kind }: Mark) =>
  kind === 'crevasse-crossing' || kind === 'bergschrund' || kind === 'moat';

const groundText = ({ surveyed }: TerrainRef, open: OpenTerrain | undefined, units: Units): string => {
  const year = surveyed ?? open?.surveyed ?? null;
  const cells = `${shortLengthText(Math.max(1, open?.cellM ?? NaN), units)} cells`;
  return `${cells}, ${year === null ? 'date unknown' : `surveyed ${year}`}`;
};
