import { expect, test } from 'vitest';
import type { MarkKind } from '../../../src/core/domain/mark';
import type { LineMark } from '../../../src/core/plan/line-marks';
import { standingRules } from '../../../src/core/plan/standing-rules';

const marked = (kind: MarkKind, fromM: number, toM: number) => ({ mark: { kind }, fromM, toM }) as LineMark;

test('nobody stands together under a cornice or where it is marked so, to the very ends of the mark', () => {
  const { standForbidden } = standingRules(
    [
      marked('cornice', 10, 20),
      marked('no-standing', 40, 40),
      marked('gathering-place', 60, 60),
      marked('ice', 80, 90),
    ],
    12,
  );
  expect([9.9, 10, 15, 20, 20.1, 40, 60, 85].map(standForbidden)).toEqual([
    ...[false, true, true, true, false],
    ...[true, false, false],
  ]);
});

test('a good place is good as far as half an interval of rope to either side', () => {
  const { goodPlace } = standingRules(
    [marked('gathering-place', 50, 52), marked('gathering-place', 90, 90), marked('cornice', 10, 20)],
    12,
  );
  expect([43.9, 44, 51, 58, 58.1, 84, 96, 15].map(goodPlace)).toEqual([
    ...[false, true, true, true, false],
    ...[true, true, false],
  ]);
});

test('where nothing is marked every place is as good as another', () => {
  const { standForbidden, goodPlace } = standingRules([], 12);
  expect([standForbidden(5), goodPlace(5)]).toEqual([false, false]);
});
