import type { History } from './store/history';

/** A state the project was in. */
export interface EarlierState {
  /** Edits of the history that were done then. */
  readonly done: number;
  /** The edit that led to it. */
  readonly name: string;
  /** Edits of that name in a row. */
  readonly count: number;
  /** null: before the first edit that is known. */
  readonly atMs: number | null;
  readonly isNow: boolean;
}

/** One stroke on a form is many edits of one name: shown as one, where no more than this lies between them. */
const togetherMs = 10 * 60_000;

/** Newest first. What was undone and can still be done again is among them. */
export function earlierStates({ edits, done }: History): EarlierState[] {
  const states: EarlierState[] = [];
  edits.forEach(({ name, atMs }, i) => {
    const last = states.at(-1);
    const isNow = i + 1 === done;
    const goesOn =
      last && last.name === name && !last.isNow && Math.abs(atMs - (last.atMs ?? atMs)) < togetherMs;
    const state = { done: i + 1, name, count: goesOn ? last.count + 1 : 1, atMs, isNow };
    if (goesOn) states[states.length - 1] = state;
    else states.push(state);
  });
  if (edits.length > 0)
    states.unshift({
      done: 0,
      name: 'before the first of these edits',
      count: 1,
      atMs: null,
      isNow: done === 0,
    });
  return states.reverse();
}
