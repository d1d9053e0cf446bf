import { choicesAt, type Choice, type Rules } from './allowed-modes';
import { partEdgesM } from './borders';
import { conditionsOf, type ChangedSnow, type Condition, type PreparedLine } from './conditions';
import { withLongerStances } from './crossing-ends';
import { quickestSequence } from './sequence';
import type { SlipLookup } from './slip-lookup';
import { states, statesAt, type State } from './states';

/** What going costs, as far as it decides between modes. */
export interface Costs {
  /** Seconds for a metre along the line. */
  secondsPerM(state: State, condition: Condition): number;
  /** Seconds that a stretch takes once, however long it is, if it begins here. */
  onceS(state: State, condition: Condition): number;
  /** Seconds to change from one state to another. */
  changeS(from: State, to: State): number;
}

/** The line with a state at every station. All lists are in step with the stations. */
export interface Decided {
  readonly line: PreparedLine;
  readonly conditions: readonly Condition[];
  readonly choices: readonly Choice[];
  readonly states: readonly State[];
  /** Ends of the stations' parts of the line, one more than stations. */
  readonly edgesM: Float64Array;
}

/** Cost of a metre where time cannot be told: such a state is taken only where it is the only one. */
const unknownSPerM = 3600;

/** Decides the whole line: at every station one of the states that may stand there, together the quickest. */
export function decide(
  line: PreparedLine,
  changed: readonly (ChangedSnow | null)[],
  { rules, lookup, costs }: { readonly rules: Rules; readonly lookup: SlipLookup; readonly costs: Costs },
): Decided {
  const found = conditionsOf(line, changed);
  const choices = found.map((condition) => choicesAt(condition, rules, lookup));
  const edgesM = partEdgesM(line, line.lengthM);
  const { conditions, isBorder } = withLongerStances(found, choices, edgesM, line);
  const placeS = new Float64Array(conditions.length * states.length).fill(Infinity);
  const enterS = new Float64Array(conditions.length * states.length);
  conditions.forEach((condition, i) => {
    const choice = choices[i]!;
    const partM = edgesM[i + 1]! - edgesM[i]!;
    const may = statesAt(condition, choice, rules.pickets);
    states.forEach((state, s) => {
      if (!may.includes(state)) return;
      const perM = costs.secondsPerM(state, condition);
      placeS[i * states.length + s] = partM * (Number.isFinite(perM) ? perM : unknownSPerM);
      const onceS = costs.onceS(state, condition);
      enterS[i * states.length + s] = Number.isFinite(onceS) ? onceS : 0;
    });
  });
  const changeS = Float64Array.from(
    states.flatMap((from) => states.map((to) => (from === to ? 0 : costs.changeS(from, to)))),
  );
  const sequence = quickestSequence({ placeS, enterS, changeS }, states.length);
  return {
    line: { ...line, isBorder },
    conditions,
    choices,
    states: Array.from(sequence, (s) => states[s]!),
    edgesM,
  };
}
