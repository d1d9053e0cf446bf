import { describe, expect, test } from 'vitest';
import { schemaFault } from '../../../src/core/files/schema-wording';
import { readProject } from '../../../src/core/files/project';

const said = (fields: Readonly<Record<string, unknown>>) => {
  const text = JSON.stringify({ format: 'firnward-project', version: 1, ...fields });
  const read = readProject(text, 'day.firnward.json');
  if (read.ok) throw new Error('it was read');
  return `${read.problem.place}: ${read.problem.title}`;
};

describe('what is wrong in a project is said with what was expected and what was found', () => {
  const climbers = Array.from({ length: 13 }, () => ({ name: 'A' }));
  test.each([
    [
      { party: { rope: { lengthM: 500 } } },
      '/party/rope/lengthM: a number from 5 to 200 expected; found 500',
    ],
    [
      { party: { rope: { lengthM: '60' } } },
      '/party/rope/lengthM: a number from 5 to 200 expected; found "60"',
    ],
    [
      { party: { rack: { pickets: 2.5 } } },
      '/party/rack/pickets: a whole number from 0 to 99 expected; found 2.5',
    ],
    [{ party: { rope: { half: 1 } } }, '/party/rope/half: true or false expected; found 1'],
    [{ party: { climbers } }, '/party/climbers: longer than 12 entries'],
    [{ party: { climbers: [] } }, '/party/climbers: empty, where something is expected'],
    [{ party: [] }, '/party: an object expected; found a list'],
    [{ notes: {} }, '/notes: a text expected; found an object'],
    [{ terrain: [{ fileName: '' }] }, '/terrain/0/fileName: empty, where something is expected'],
    [{ name: 'n'.repeat(10_001) }, '/name: longer than 10000 characters'],
    [{ snow: 'slush' }, /^\/snow: .*found "slush"/],
    [
      { marks: [{ positions: [[7, 46]] }] },
      /^\/marks\/0\/kind: one of "crevasse-crossing", .*expected; found nothing$/,
    ],
    [{ walkingRule: 'x'.repeat(60) }, /found "x{39}…$/],
    [
      { schedule: { snowChanges: [{ fromM: 0, toM: 1, at: '9', snow: 'P' }] } },
      /expected a time such as 09:30$/,
    ],
    [{ assumptions: { ['k'.repeat(201)]: 1 } }, /: a name that is longer than any that is known here$/],
    [{ assumptions: { friction: true } }, '/assumptions/friction: a number expected; found true'],
  ])('%j', (fields, words) => {
    if (typeof words === 'string') expect(said(fields)).toBe(words);
    else expect(said(fields)).toMatch(words);
  });
});

test('a kind without a name of its own is said as it is, and one value is not one of several', () => {
  const input = 'x';
  expect(schemaFault({ input, code: 'invalid_type', expected: 'date' })).toBe('date expected; found "x"');
  expect(schemaFault({ input, code: 'invalid_value', values: ['day'] })).toBe('"day" expected; found "x"');
});
