import { variantMode, variants, type Mode, type Variant } from '../domain/mode';
import type { Choice } from './allowed-modes';
import type { Condition } from './conditions';

/** What may stand at a station: a variant of the modes that are chosen, or one that is forced. More protective later. */
export const states = [...variants, 'crossing', 'none-holds', 'no-data'] as const;
export type State = (typeof states)[number];

export const stateIndex = Object.fromEntries(states.map((state, i) => [state, i])) as Readonly<
  Record<State, number>
>;

export const isVariant = (state: State): state is Variant => (variants as readonly State[]).includes(state);

export function modeOf(state: State): Mode {
  if (state === 'crossing') return 'belayed-crossing';
  return isVariant(state) ? variantMode[state] : state;
}

/** A pitch hangs between two anchors of two pieces. */
const pitchPieces = 4;

/** One at least. */
type SomeStates = readonly [State, ...State[]];

/** The states among which the sequence may choose at a station. */
export function statesAt(condition: Condition, choice: Choice, pickets: number): readonly State[] {
  const byGuide = condition.override?.mode ?? null;
  if (byGuide !== null) return statesOfMode(byGuide, choice);
  const may = byNumbers(condition, choice);
  // Pitches that the rack cannot equip are no quicker way out of a running belay that it can: the last resort, with a warning.
  return pickets < pitchPieces && may.length > 1 ? may.filter((state) => state !== 'pitched') : may;
}

/** What the numbers and the marks ask for, whatever the guide has set. */
export function byNumbers(condition: Condition, choice: Choice): SomeStates {
  if (condition.crossing !== null && canBeCrossed(choice)) return ['crossing'];
  const [first, ...others] = choice.allowed;
  if (first !== undefined) return [first, ...others];
  return [choice.rule === 'no-data' ? 'no-data' : 'none-holds'];
}

/**
 * Where anything holds a slip, what is crossed is belayed, never merely walked over roped, even where snow holds pieces worse than
 * people hold each other: a weak anchor is warned of. Where nothing holds a slip, nothing holds a crossing; low-stretch cord bars the
 * leading of pitches and not a crossing.
 */
function canBeCrossed(choice: Choice): boolean {
  if (choice.rule === 'shares') return choice.allowed.length > 0 || choice.barred.pitched === 'low-stretch';
  return choice.rule === 'easy' || choice.rule === 'easy-ice' || choice.rule === 'no-data';
}

function statesOfMode(mode: Mode, choice: Choice): readonly State[] {
  switch (mode) {
    case 'roped':
      return ['roped'];
    case 'running-belay': {
      const allowed = choice.allowed.filter((variant) => variantMode[variant] === 'running-belay');
      return allowed.length > 0 ? allowed : ['running'];
    }
    case 'pitched-belay':
      return ['pitched'];
    case 'belayed-crossing':
      return ['crossing'];
    case 'none-holds':
    case 'no-data':
      return [mode];
  }
}
