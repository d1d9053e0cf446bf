import { expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { defaultParty } from '../../../src/core/domain/rope-team';
import { paceStretch } from '../../../src/core/pace/stretch';
import type { StretchInput } from '../../../src/core/pace/stretch-input';
import { slopeLine } from './slope-line';

const input: StretchInput = {
  mode: 'running-belay',
  variant: 'running',
  stations: slopeLine({ lengthM: 300, gradeDeg: 0 }),
  fromM: 0,
  toM: 300,
  party: { ...defaultParty, rope: { ...defaultParty.rope, intervalM: 15 } },
  figures: defaultFigures,
  snow: { hardness: 'P', wetness: 'D' },
};

test('on even level ground with nothing below, pieces are used up before the team gathers', () => {
  const pace = paceStretch(input);

  expect(pace.time?.defaultS).toBeCloseTo(8925, 1);
  expect(pace.rotations).toBe(10);
  expect(pace.pieces).toHaveLength(21);
});
