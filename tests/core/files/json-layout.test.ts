import fc from 'fast-check';
import { expect, test } from 'vitest';
import { layOutJson } from '../../../src/core/files/json-layout';

const anyJson = fc.jsonValue({ maxDepth: 5 });

test('says what JSON says', () => {
  fc.assert(
    fc.property(anyJson, (value) => {
      const plain: unknown = JSON.parse(JSON.stringify(value));
      expect(JSON.parse(layOutJson(value))).toEqual(plain);
    }),
  );
});

test('what fits in a line of 100 stays in one, and a longer one is a single value', () => {
  const long = {
    name: 'x'.repeat(120),
    empty: {},
    none: [],
    nested: { list: [1, null, 'a'], left: undefined },
  };
  expect(layOutJson(long)).toBe(
    `{\n  "name": "${'x'.repeat(120)}",\n  "empty": {},\n  "none": [],\n  "nested": { "list": [1, null, "a"] }\n}\n`,
  );
  const ninetyEight = 'y'.repeat(96);
  expect(layOutJson([ninetyEight])).toBe(`["${ninetyEight}"]\n`);
  expect(layOutJson([`${ninetyEight}z`])).toBe(`[\n  "${ninetyEight}z"\n]\n`);
});

test('a number that is not finite is refused', () => {
  for (const value of [NaN, Infinity]) expect(() => layOutJson({ deep: [value] })).toThrow('not finite');
});
