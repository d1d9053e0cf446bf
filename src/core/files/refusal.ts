import type { Problem, Question } from '../domain/problem';
import { fail, ok, type Result } from '../domain/result';

/** Thrown inside a reader to leave it at once; the reader's own entry turns it into a failed result. */
export class Refusal extends Error {
  constructor(readonly problem: Problem) {
    super(problem.title);
  }
}

/** What a reader gives, or the problem it was left with; a defect of ours goes on. */
export function attempt<T>(read: () => T): Result<T, Problem> {
  try {
    return ok(read());
  } catch (stop) {
    if (stop instanceof Refusal) return fail(stop.problem);
    throw stop;
  }
}

/** Makes the problems of one file: its letters, its name. */
export class Refuser {
  constructor(
    readonly subject: string,
    readonly letters: string,
  ) {}

  problem(number: string, place: string | null, title: string, remedy: string, question?: Question): Problem {
    const problem = { code: `${this.letters}-${number}`, subject: this.subject, place, title, remedy };
    return question === undefined ? problem : { ...problem, question };
  }

  refuse(number: string, place: string | null, title: string, remedy: string, question?: Question): never {
    throw new Refusal(this.problem(number, place, title, remedy, question));
  }
}

/** Answers the user gave to questions, by the code of the problem that asked. */
export type Answers = Readonly<Record<string, string>>;
