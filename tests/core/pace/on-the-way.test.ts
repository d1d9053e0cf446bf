import geographiclib from 'geographiclib-geodesic';
import { describe, expect, test } from 'vitest';
import type { LngLat } from '../../../src/core/domain/coordinates';
import type { Plan } from '../../../src/core/domain/segment';
import { onTheWay, type Fix } from '../../../src/core/pace/on-the-way';
import { madeUpPlan as makePlan } from '../../app/fixture/made-up-plan';

const { Geodesic } = geographiclib;
const madeUpPlan = makePlan();
const station = (alongM: number): LngLat => {
  const found = madeUpPlan.stations.find((each) => each.alongM >= alongM);
  if (!found) throw new Error('beyond the line');
  return found.position;
};
const fix = (position: LngLat, atMs = 0): Fix => ({ position, accuracyM: 5, atMs });

/** So many metres to the side of a place, by the geodesic library alone. */
function beside([lng, lat]: LngLat, bearing: number, metres: number): LngLat {
  const { lat2, lon2 } = Geodesic.WGS84.Direct(lat, lng, bearing, metres);
  return [lon2 ?? NaN, lat2 ?? NaN];
}

describe('on the way', () => {
  test('the segment underfoot, the next one, and how far it is', () => {
    const at = onTheWay(madeUpPlan, fix(station(1000)), null);
    expect(at?.alongM).toBeCloseTo(1000, -1);
    expect(at && at.segment.fromM <= at.alongM && at.alongM < at.segment.toM).toBe(true);
    expect(at?.next?.fromM).toBe(at?.segment.toM);
    expect(at && at.toNextM + at.alongM).toBeCloseTo(at?.segment.toM ?? NaN, 6);
  });

  test('off the line: how far, and which way back to it', () => {
    const at = onTheWay(madeUpPlan, fix(beside(station(800), 128.5, 120)), null);
    expect(at?.offsetM).toBeGreaterThan(118);
    expect(at?.offsetM).toBeLessThan(122);
    expect(Math.abs((at?.backToLineDeg ?? NaN) - 308.5)).toBeLessThan(2);
  });

  test('the next gathering is ahead, its distance and bearing those of the geodesic', () => {
    const here = station(700);
    const at = onTheWay(madeUpPlan, fix(here), null);
    const places = madeUpPlan.segments
      .flatMap(({ gatherings }) => gatherings)
      .filter((each) => each.alongM > 700)
      .map(({ alongM }) => alongM);
    expect(at?.gathering?.alongM).toBe(Math.min(...places));
    const [lng, lat] = at?.gathering?.position ?? here;
    const way = Geodesic.WGS84.Inverse(here[1], here[0], lat, lng);
    expect(at?.gathering?.straightM).toBeCloseTo(way.s12 ?? NaN, 6);
    expect(at?.gathering?.bearingDeg).toBeCloseTo(((way.azi1 ?? NaN) + 360) % 360, 6);
  });

  test('late and early against the clock of the segment; nothing on another day', () => {
    const segment = madeUpPlan.segments.find(({ arrive, leave }) => arrive && leave && arrive !== leave);
    if (!segment?.arrive || !segment.leave) throw new Error('the plan has no clock');
    const middleMs = (Date.parse(segment.arrive) + Date.parse(segment.leave)) / 2;
    const middle = station((segment.fromM + segment.toM) / 2);
    const late = (offMs: number) => onTheWay(madeUpPlan, fix(middle, middleMs + offMs), null)?.lateS;
    expect(Math.abs(late(0) ?? NaN)).toBeLessThan(60);
    expect((late(600_000) ?? NaN) - (late(0) ?? NaN)).toBeCloseTo(600, 6);
    expect(late(-600_000)).toBeLessThan(-500);
    expect(late(86_400_000)).toBeNull();
  });

  test('on a line that comes back the way it went, the place after the last one is meant', () => {
    const out = madeUpPlan.stations;
    const lengthM = out.at(-1)?.alongM ?? 0;
    const back = out
      .toReversed()
      .slice(1)
      .map((each) => ({ ...each, alongM: 2 * lengthM - each.alongM }));
    const both: Plan = { ...madeUpPlan, stations: [...out, ...back] };
    const here = fix(station(600));
    expect(onTheWay(both, here, null)?.alongM).toBeLessThan(lengthM);
    expect(onTheWay(both, here, 2 * lengthM - 650)?.alongM).toBeCloseTo(2 * lengthM - 600, -1);
  });

  test('without a line there is no place on it', () => {
    expect(onTheWay({ ...madeUpPlan, stations: [] }, fix([0, 0]), null)).toBeNull();
  });
});
