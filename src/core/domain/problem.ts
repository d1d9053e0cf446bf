/**
 * Something the user can mend. `code` is stable (e.g. `GPX-019`) and never reused; the words are the message's contract:
 * what (file), where (place), what was found and expected (title), what was kept (kept), what to do (remedy).
 */
export interface Problem {
  readonly code: string;
  /** File or field the problem is in. */
  readonly subject: string;
  /** Line:column, byte offset, tag, point number, JSON pointer or field label; null if the whole subject is meant. */
  readonly place: string | null;
  /** What was found, and what was expected. */
  readonly title: string;
  readonly remedy: string;
  /** What was kept, where anything was. */
  readonly kept?: string;
  /** A choice that would settle it, for questions: the command line's flag and the choices to offer on screen. */
  readonly question?: Question;
}

export interface Question {
  readonly kind: 'crs' | 'elevation-unit' | 'track' | 'yes-no';
  /** The command-line flag that answers it, e.g. `--crs EPSG:n`; none: `--answer` with the code and a choice's value. */
  readonly flag?: string;
  readonly choices: readonly { readonly value: string; readonly label: string }[];
}

/** Something the user should know that stopped nothing. */
export interface Note {
  readonly code: string;
  readonly subject: string;
  readonly text: string;
}

/** One line: file, place, what, remedy. For the command line. */
export function problemLine(problem: Problem): string {
  const where = problem.place === null ? problem.subject : `${problem.subject}, ${problem.place}`;
  const kept = problem.kept === undefined ? '' : ` ${problem.kept}`;
  const line = `${where}: ${problem.title}.${kept} ${problem.remedy}${answersIn(problem)} [${problem.code}]`;
  return line.replaceAll(/\s+/g, ' ');
}

/** How a question is answered on a command line; to say no is to leave it unanswered. */
function answersIn({ code, question }: Problem): string {
  if (question?.flag !== undefined) return ` Answer with ${question.flag}.`;
  const answers = (question?.choices ?? []).filter(({ value }) => value !== 'no');
  if (answers.length === 0) return '';
  const offered = answers.map(({ value, label }) => `--answer ${code}=${value} (${label})`);
  return ` Answer with ${offered.join(' or ')}.`;
}
