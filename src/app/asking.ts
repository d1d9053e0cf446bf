import type { LngLat } from '../core/domain/coordinates';
import type { Problem } from '../core/domain/problem';
import { ProblemError } from '../core/domain/raster';
import type { Answers } from '../core/files/track-file';

/** A question with a few answers, asked beside the page. */
export interface Choice {
  readonly title: string;
  readonly detail: string;
  readonly choices: readonly { readonly value: string; readonly label: string }[];
  /** Other answers may be typed. */
  readonly typed: boolean;
  /** What it is called to put the question away; `Do not open` where it is not said. */
  readonly putAway?: string;
  /** A small picture of what is asked about. */
  readonly sketch?: Sketch;
}

/** Lines and grounds seen from above, north up. */
export interface Sketch {
  /** What the picture shows, for whoever cannot see it. */
  readonly label: string;
  readonly legs: readonly { readonly positions: readonly LngLat[]; readonly isDoubtful: boolean }[];
  /** Closed outlines of rasters. */
  readonly grounds: readonly (readonly LngLat[])[];
}

/** null: put away without an answer. */
export type Ask = (choice: Choice) => Promise<string | null>;

/** Reading a strange file may never end: a worker that does not answer a cancel for so long is stopped. */
export const stuckAfterMs = 1500;

/**
 * Opens a file, asks what its problem leaves open, and opens it again with the answer, by the problem's code, until it is clear.
 * @throws the file's problem where there is nothing to ask, or the user gives up.
 */
export async function openAsking<T>(ask: Ask, open: (answers: Answers) => Promise<T>): Promise<T> {
  let answers: Answers = {};
  for (;;) {
    try {
      return await open(answers);
    } catch (reason) {
      const problem = reason instanceof ProblemError ? reason.problem : null;
      // Asked once already: the answer did not settle it.
      if (problem === null || problem.question === undefined || problem.code in answers) throw reason;
      const answer = await ask(choiceOf(problem));
      if (answer === null) throw reason;
      answers = { ...answers, [problem.code]: answer };
    }
  }
}

/** "Do not open" is offered beside every question, so a no among its answers is not repeated. */
function choiceOf({ subject, place, title, remedy, question }: Problem): Choice {
  return {
    title: `${subject}${place === null ? '' : `, ${place}`}: ${title}.`,
    detail: remedy,
    choices: (question?.choices ?? []).filter(({ value }) => value !== 'no'),
    typed: false,
  };
}
