import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import { defaultParty } from '../../../src/core/domain/rope-team';
import { deviceAdvice, rackAdvice } from '../../../src/core/pace/rack-advice';
import { paceStretch } from '../../../src/core/pace/stretch';
import type { StretchInput } from '../../../src/core/pace/stretch-input';
import { slopeLine } from './slope-line';

const stretch: StretchInput = {
  mode: 'running-belay',
  variant: 'running',
  stations: slopeLine({ lengthM: 300, gradeDeg: 0 }),
  fromM: 0,
  toM: 300,
  party: defaultParty,
  figures: defaultFigures,
  snow: { hardness: 'P', wetness: 'D' },
};
const pickets = [2, 3, 4, 5, 6, 8, 10, 12];

test('time and gatherings against pickets carried', () => {
  const { rows } = rackAdvice([stretch], pickets);
  expect(rows.map((row) => row.pickets)).toEqual(pickets);
  rows.forEach((row, i) => {
    const { party } = stretch;
    const pace = paceStretch({
      ...stretch,
      party: { ...party, rack: { pickets: row.pickets, captureDevices: 0 } },
    });
    expect(row).toEqual({
      pickets: row.pickets,
      timeS: pace.time!.defaultS,
      gatherings: pace.rotations,
      badGatherings: 0,
      onOnePiece: 0,
    });
    const before = rows[i - 1];
    if (before === undefined) return;
    expect(row.gatherings).toBeLessThanOrEqual(before.gatherings);
    expect(row.timeS!).toBeLessThanOrEqual(before.timeS! + 60);
  });
});

test('two pickets above a deadly run-out put the whole team on one piece, and it is counted', () => {
  const deadly = { ...stretch, runOutAt: () => 'deadly' as const };
  const [two, three] = rackAdvice([deadly], [2, 3]).rows;
  expect(two!.onOnePiece).toBe(two!.gatherings);
  expect(three!.onOnePiece).toBe(0);
  // That is what makes two quicker than three: a second piece at every gathering.
  expect(three!.timeS!).toBeGreaterThan(two!.timeS!);
});

test('the fewest that reach over a place where nobody may stand', () => {
  const standForbidden = (alongM: number) => alongM > 100 && alongM < 158;
  expect(rackAdvice([{ ...stretch, standForbidden }], pickets).fewestWithoutBad).toBe(6);
  const nowhere = () => true;
  expect(rackAdvice([{ ...stretch, standForbidden: nowhere }], [2, 3]).fewestWithoutBad).toBeNull();
});

test('only running belays count; several add up', () => {
  const roped: StretchInput = { ...stretch, mode: 'roped', variant: 'roped' };
  const one = rackAdvice([stretch], [3]).rows[0]!;
  const more = rackAdvice([stretch, roped, stretch], [3]).rows[0]!;
  expect(more.timeS).toBeCloseTo(2 * one.timeS!, 6);
  expect(more.gatherings).toBe(2 * one.gatherings);
  expect(rackAdvice([roped], [3]).rows[0]).toMatchObject({ timeS: 0, gatherings: 0 });
});

test('one picket is no running belay', () => {
  const { rows, fewestWithoutBad } = rackAdvice([stretch], [1]);
  expect(rows[0]?.timeS).toBeNull();
  expect(fewestWithoutBad).toBeNull();
});

describe('capture devices', () => {
  const same = { withoutS: 10_000, withS: 10_000, noneWithoutM: 0, noneWithM: 0 };
  test.each([
    [{ ...same, withS: 8000 }, true, '33 min less'],
    [{ ...same, withS: 9900 }, false, 'only 2 min'],
    [same, false, 'no time'],
    [{ ...same, withoutS: null, noneWithoutM: 120 }, true, '120 m more'],
    [{ ...same, withoutS: null }, false, 'cannot be compared'],
  ])('%j: worth it %s', (comparison, worth, said) => {
    const advice = deviceAdvice(comparison);
    expect(advice.worth).toBe(worth);
    expect(advice.reason).toContain(said);
  });
});
