import { expect, test } from 'vitest';
import { problemLine, type Problem } from '../../../src/core/domain/problem';

const problem: Problem = {
  code: 'X-001',
  subject: 'line.gpx',
  place: null,
  title: 'found this,\n  expected that',
  remedy: 'Do this.',
};

test('a problem in one line: where, what, remedy, code', () => {
  expect(problemLine(problem)).toBe('line.gpx: found this, expected that. Do this. [X-001]');
});

test('with its place, what was kept, and the flag that answers it', () => {
  const question = { kind: 'crs', flag: '--crs EPSG:n', choices: [] } as const;
  expect(problemLine({ ...problem, place: '3:14', kept: 'The rest is kept.', question })).toBe(
    'line.gpx, 3:14: found this, expected that. The rest is kept. Do this. Answer with --crs EPSG:n. [X-001]',
  );
  expect(problemLine({ ...problem, question: { kind: 'yes-no', choices: [] } })).toBe(problemLine(problem));
});

test('where no flag of its own answers it, by code and value; a no is to leave it', () => {
  const choices = [
    { value: 'drop', label: 'Drop them' },
    { value: 'keep', label: 'Keep them' },
    { value: 'no', label: 'Do not open it' },
  ];
  expect(problemLine({ ...problem, question: { kind: 'yes-no', choices } })).toContain(
    'Answer with --answer X-001=drop (Drop them) or --answer X-001=keep (Keep them). [X-001]',
  );
  expect(problemLine({ ...problem, question: { kind: 'yes-no', choices: choices.slice(2) } })).toBe(
    problemLine(problem),
  );
});
