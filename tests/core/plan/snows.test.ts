import { expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { hardnesses } from '../../../src/core/domain/snow';
import { snowsOnLine } from '../../../src/core/plan/snows';
import { lookupIn } from '../../../src/core/plan/slip-lookup';
import { defaultParty } from '../../../src/core/domain/rope-team';
import { buildTables, type SlipTables } from '../../../src/core/slip/tables';
import { placeAt, projectOf } from './invented';

const said = (...args: Parameters<typeof snowsOnLine>) =>
  snowsOnLine(...args).map(({ hardness, wetness }) => `${hardness} ${wetness}`);

test('the tables needed are for the line’s snow, what is painted, what comes, and marked ice', () => {
  const painted = { id: 'o', way: 'both' as const, fromM: 0, toM: 9, mode: null, runOut: null, note: '' };
  const project = projectOf({
    overrides: [
      { ...painted, snow: { hardness: 'K', wetness: 'D' } },
      { ...painted, snow: null },
    ],
    schedule: {
      ...projectOf().schedule,
      snowChanges: [{ fromM: 0, toM: 9, at: '10:00', snow: { hardness: '1F', wetness: 'V' } }],
    },
    marks: [
      { id: 'm', kind: 'ice', positions: [placeAt(3)], widthM: null, bridge: null, seenOn: null, note: '' },
    ],
  });
  expect(said(projectOf())).toEqual(['P D']);
  expect(said(project)).toEqual(['P D', 'K D', '1F V', 'I D', 'I V']);
  expect(said(projectOf(), hardnesses)).toHaveLength(hardnesses.length);
});

test('a lookup knows the snows it has tables for; a fault in them is no answer', () => {
  const lookup = lookupIn(
    buildTables(defaultParty, defaultFigures, [{ hardness: 'P', wetness: 'D' }], {
      quality: 'coarse',
      variants: ['roped'],
    }),
  );
  for (const _ of [1, 2]) {
    expect(lookup.knows({ hardness: 'P', wetness: 'D' })).toBe(true);
    expect(lookup.knows({ hardness: 'K', wetness: 'D' })).toBe(false);
  }
  const broken = { ...lookup, sheets: null, party: defaultParty } as unknown as SlipTables;
  expect(() => lookupIn(broken).knows({ hardness: 'P', wetness: 'D' })).toThrow(TypeError);
});
