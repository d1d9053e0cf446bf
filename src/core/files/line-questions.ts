import type { Problem } from '../domain/problem';
import type { LinePoint } from '../domain/project';
import { fail, ok, type Result } from '../domain/result';
import { askedGapM, cutAt, type BridgedGap } from '../line/from-track';
import { jumpsOf, withoutStrays } from '../line/jumps';
import { countText } from '../wording/numbers';
import type { Answers } from './refusal';

/** Points of a line on their way to be planned, and what the user has answered so far. */
interface Questioned {
  readonly points: readonly LinePoint[];
  /** The file, for messages. */
  readonly subject: string;
  readonly answers: Answers;
}

/**
 * The line once the user has said whether it goes straight across its wide gaps, or which part of it is meant. Nobody walked
 * those pieces, so without an answer the line is refused.
 */
export function settledGaps({
  points,
  gaps,
  subject,
  answers,
}: Questioned & { readonly gaps: readonly BridgedGap[] }): Result<
  { readonly points: readonly LinePoint[]; readonly crossed: readonly BridgedGap[] },
  Problem
> {
  const wide = gaps.filter(({ lengthM }) => lengthM >= askedGapM);
  const code = 'GPX-017';
  const answer = answers[code];
  if (wide.length === 0 || answer === 'cross') return ok({ points, crossed: gaps });
  const parts = cutAt(points, wide);
  const at = parts.findIndex((_, i) => answer === String(i + 1));
  if (at >= 0) {
    const startsAt = wide[at - 1]?.index ?? 0;
    const within = (index: number) => index > startsAt && index < startsAt + parts[at]!.length;
    const crossed = gaps
      .filter(({ index }) => within(index))
      .map((gap) => ({ ...gap, index: gap.index - startsAt }));
    return ok({ points: parts[at]!, crossed });
  }
  const widestM = Math.max(...wide.map(({ lengthM }) => lengthM));
  return fail({
    code,
    subject,
    place: `before point ${wide[0]!.index + 1}`,
    title: `${countText(wide.length, 'gap')} in the line, the widest of ${Math.round(widestM)} m: nothing was recorded there`,
    remedy: 'Say whether the way goes straight across, or which part is to be planned.',
    question: {
      kind: 'yes-no',
      choices: [
        { value: 'cross', label: 'straight across' },
        ...parts.map((part, i) => ({
          value: String(i + 1),
          label: `part ${i + 1}, ${countText(part.length, 'point')}`,
        })),
      ],
    },
  });
}

/** The line once the user has said whether points beyond impossible jumps are strays; without an answer it is refused. */
export function settledJumps({
  points,
  subject,
  answers,
}: Questioned): Result<readonly LinePoint[], Problem> {
  const jumps = jumpsOf(points);
  const code = 'GPX-027';
  const first = jumps[0];
  if (first === undefined || answers[code] === 'keep') return ok(points);
  const without = withoutStrays(points);
  const strays = points.length - without.length;
  if (strays > 0 && answers[code] === 'drop') return ok(without);
  return fail({
    code,
    subject,
    place: `between point ${first.index} and ${first.index + 1}`,
    title: `the line jumps ${Math.round(first.lengthM / 1000)} km, which nobody walks unrecorded`,
    remedy: 'Say what to make of it.',
    question: {
      kind: 'yes-no',
      choices: [
        ...(strays > 0
          ? [{ value: 'drop', label: `leave out ${countText(strays, 'point')} beyond the jumps` }]
          : []),
        { value: 'keep', label: 'plan it as it is' },
      ],
    },
  });
}
