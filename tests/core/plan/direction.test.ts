import { describe, expect, test } from 'vitest';
import type { Station } from '../../../src/core/domain/station';
import { goingDown } from '../../../src/core/plan/direction';
import { profileOf } from './invented';

const stationsAt = (elevationsM: readonly (number | null)[]): Station[] =>
  profileOf(elevationsM.map(() => ({ slopeDeg: 10 }))).stations.map((station, i) => ({
    ...station,
    elevationM: elevationsM[i] ?? null,
  }));

const downAt = (elevationsM: readonly (number | null)[]) =>
  [...goingDown(stationsAt(elevationsM), 10)].join('');

describe('which stretches are gone down', () => {
  test('from the high point to the low point', () =>
    expect(downAt([0, 20, 40, 30, 10, 0, 20, 40])).toBe('00111000'));

  test('a dip of less than the drop is no descent', () =>
    expect(downAt([0, 20, 40, 32, 38, 60])).toBe('000000'));

  test('nor is a short rise on the way down an ascent', () =>
    expect(downAt([100, 80, 60, 66, 40, 20])).toBe('111111'));

  test('a level line goes up rather than down: devices stay on offer, the order stays', () =>
    expect(downAt([5, 4, 6, 5, 3])).toBe('00000'));

  test('unknown elevations go on as what is around them', () =>
    expect(downAt([100, 80, null, 60, 40])).toBe('11111'));
});
