import type { Problem, Question } from '../domain/problem';

/** Thrown inside a reader to leave it at once; the reader's own entry turns it into a failed result. */
export class Refusal extends Error {
  constructor(readonly problem: Problem) {
    super(problem.title);
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
