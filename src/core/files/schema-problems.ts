import type { Problem } from '../domain/problem';
import { z } from './zod';

type Issue = z.core.$ZodIssue;

const listed = 20;

/** Where in a JSON document, by RFC 6901. */
export function jsonPointer(path: readonly PropertyKey[]): string {
  return path
    .map((step) => `/${String(step).slice(0, 200).replaceAll('~', '~0').replaceAll('/', '~1')}`)
    .join('');
}

/** One problem for all that a schema found: the first place, and the first twenty in the title. */
export function schemaProblem(
  error: z.core.$ZodError,
  about: Pick<Problem, 'code' | 'subject' | 'remedy'>,
): Problem {
  const found = error.issues.map(clearest);
  return problemList(
    found.map((issue) => ({ pointer: jsonPointer(issue.path), title: issue.message })),
    about,
  );
}

export interface Finding {
  readonly pointer: string;
  readonly title: string;
}

export function problemList(
  findings: readonly Finding[],
  about: Pick<Problem, 'code' | 'subject' | 'remedy'>,
): Problem {
  const [first, ...others] = [findings[0]!, ...findings.slice(1)];
  const also = others.slice(0, listed - 1).map(({ pointer, title }) => `; ${pointer}: ${title}`);
  const rest = others.length - also.length;
  return {
    ...about,
    place: first.pointer,
    title: first.title + also.join('') + (rest > 0 ? `; and ${rest} more` : ''),
  };
}

/** Of a choice between shapes, what went wrong in the shape that was meant: the one that was followed deepest. */
function clearest(issue: Issue): Issue {
  if (issue.code !== 'invalid_union' || issue.errors.length === 0) return issue;
  const deepest = issue.errors
    .flatMap((branch) => branch.slice(0, 1))
    .map((inner) => clearest({ ...inner, path: [...issue.path, ...inner.path] }))
    .sort((a, b) => b.path.length - a.path.length)[0];
  return deepest !== undefined && deepest.path.length > issue.path.length ? deepest : issue;
}
