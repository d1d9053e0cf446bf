import { describe, expect, test } from 'vitest';
import type { Variant } from '../../../src/core/domain/mode';
import type { Choice } from '../../../src/core/plan/allowed-modes';
import type { Condition } from '../../../src/core/plan/conditions';
import { withLongerStances } from '../../../src/core/plan/crossing-ends';
import type { LineMark } from '../../../src/core/plan/line-marks';

const gap = { fromM: 10, toM: 14 } as LineMark;
const other = { fromM: 0, toM: 99 } as LineMark;
const asks = (variant: Variant): Choice => ({ allowed: [variant] }) as unknown as Choice;

interface Case {
  readonly crossing: readonly (LineMark | null)[];
  readonly asked: readonly Variant[];
  readonly edgesM: readonly number[];
  readonly isBorder: readonly number[];
  readonly end: Partial<Condition>;
}

/** A crossing on the first two places ends at the third, whose part is of 2 m. */
const usual: Case = {
  crossing: [gap, gap, null, null],
  asked: ['roped', 'roped', 'pitched', 'roped'],
  edgesM: [0, 5, 10, 12, 17],
  isBorder: [1, 0, 1, 0],
  end: {},
};

function ends(changes: Partial<Case> = {}) {
  const { crossing, asked, edgesM, isBorder, end } = { ...usual, ...changes };
  const conditions = crossing.map(
    (mark, i) =>
      ({
        crossing: mark,
        override: null,
        designSlopeDeg: 30,
        marks: [other],
        ...(i === 2 ? end : {}),
      }) as unknown as Condition,
  );
  const border = Uint8Array.from(isBorder);
  const found = withLongerStances(conditions, asked.map(asks), Float64Array.from(edgesM), {
    isBorder: border,
  });
  // What was given stays as it was.
  expect([...border]).toEqual(isBorder);
  return {
    kept: found.conditions.map((condition, i) => condition !== conditions[i]),
    end: found.conditions[2]!,
    isBorder: [...found.isBorder],
  };
}

describe('where a crossing ends', () => {
  test('its belay is kept over a short step of other ground', () => {
    const { kept, end, isBorder } = ends();
    expect(kept).toEqual([false, false, true, false]);
    expect(end.crossing).toBe(gap);
    expect(end.marks).toEqual([other, gap]);
    expect(isBorder).toEqual([1, 0, 0, 0]);
  });

  test.each([
    ['the step is as long as a stance', { edgesM: [0, 5, 10, 15, 20] }],
    ['the ground behind asks for the same', { asked: ['roped', 'roped', 'roped', 'roped'] as const }],
    ['no border stands there', { isBorder: [1, 0, 0, 0] }],
    ['the guide has set the technique', { end: { override: {} } as Partial<Condition> }],
    ['there is no ground', { end: { designSlopeDeg: null } }],
    ['another is crossed right behind', { crossing: [gap, gap, gap, null] }],
    ['nothing was crossed', { crossing: [null, null, null, null] }],
  ])('it ends there where %s', (_, changes) => {
    const { kept, isBorder } = ends(changes);
    expect(kept[2]).toBe(false);
    expect(isBorder[2]).toBe((changes as Partial<Case>).isBorder?.[2] ?? 1);
  });

  test('it is kept to the end of the line', () => {
    const { kept } = ends({
      crossing: [gap, gap, null],
      asked: ['roped', 'roped', 'pitched'],
      edgesM: [0, 5, 10, 12],
      isBorder: [1, 0, 1],
    });
    expect(kept).toEqual([false, false, true]);
  });
});
