import { expect, test } from 'vitest';
import { climbsOf } from '../../../src/core/plan/climbs';
import { profileOf } from './invented';

/** Heights in steps of 10 m along the slope's own measure: the rise of a station is what lies before it. */
const at = (elevationsM: readonly (number | null)[]) =>
  profileOf(
    elevationsM.map(() => ({ slopeDeg: 0 })),
    10,
  ).stations.map((station, i) => ({
    ...station,
    elevationM: elevationsM[i]!,
  }));

test('ups and downs are added up apart, in whole steps and in parts of them', () => {
  const climbs = climbsOf(at([100, 110, 104, 104, 130]), 0);
  expect(climbs.between(0, 40)).toEqual({ ascentM: 36, descentM: 6 });
  expect(climbs.between(10, 20)).toEqual({ ascentM: 0, descentM: 6 });
  expect(climbs.between(20, 30)).toEqual({ ascentM: 0, descentM: 0 });
  expect(climbs.between(5, 15)).toEqual({ ascentM: 5, descentM: 3 });
  expect(climbs.between(30, 40).ascentM).toBeCloseTo(26, 9);
});

test('what the walking times leave out as wiggles is left out here', () => {
  const climbs = climbsOf(at([100, 101, 100, 101, 100, 120]), 5);
  const { ascentM, descentM } = climbs.between(0, 50);
  expect(ascentM).toBeCloseTo(20, 9);
  expect(descentM).toBeCloseTo(0, 9);
});

test('nobody knows how much is climbed over a gap, and everybody beside it', () => {
  const climbs = climbsOf(at([100, 110, null, 120, 130]), 0);
  expect(climbs.between(0, 40)).toEqual({ ascentM: null, descentM: null });
  expect(climbs.between(15, 18)).toEqual({ ascentM: null, descentM: null });
  expect(climbs.between(0, 10)).toEqual({ ascentM: 10, descentM: 0 });
  expect(climbs.between(30, 40)).toEqual({ ascentM: 10, descentM: 0 });
});
