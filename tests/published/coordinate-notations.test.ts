import { describe, expect, test } from 'vitest';
import { distanceM } from '../../src/core/line/geodesic';
import { fromMgrs, toMgrs, type MgrsFigures } from '../../src/core/line/mgrs';
import { fromUtm, toUtm } from '../../src/core/line/utm';

/**
 * Worked example of FGDC-STD-011-2001 (United States National Grid), section 5.2.2: the Washington Monument at UTM zone 18 N,
 * easting 323 483.168, northing 4 306 479.498. Figures are cut off, not rounded: the easting's .168 and the northing's .498
 * disappear, and at 10 m the 6479 of the northing becomes 0647.
 */
describe('FGDC-STD-011-2001, section 5.2.2', () => {
  const monument = fromUtm({ zone: 18, isNorth: true, eastingM: 323_483.168, northingM: 4_306_479.498 });

  test.each<[MgrsFigures, string]>([
    [5, '18SUJ 23483 06479'],
    [4, '18SUJ 2348 0647'],
    [3, '18SUJ 234 064'],
    [2, '18SUJ 23 06'],
    [0, '18SUJ'],
  ])('to %i figures', (figures, expected) => {
    expect(toMgrs(monument, figures)).toBe(expected);
  });

  /** Position by PROJ from the same example, to its sixth decimal: half a millionth of a degree is 0.06 m. */
  test('its position', () => {
    expect(monument[1]).toBeCloseTo(38.889467, 6);
    expect(monument[0]).toBeCloseTo(-77.03524, 6);
  });

  test('and back to the middle of its square metre', () => {
    const back = fromMgrs('18SUJ2348306479');
    expect(back && distanceM(back, monument)).toBeLessThan(0.75);
  });
});

/** Coordinates by PROJ 9.1.1 (cs2cs EPSG:4326 EPSG:32632, EPSG:32610), to a thousandth of a millimetre. */
describe('UTM by PROJ', () => {
  test.each<[[number, number], number, number, number]>([
    [[6.8652, 45.8326], 32, 334_200.770096, 5_077_664.590366],
    [[-121.7603, 46.8528], 10, 594_506.975438, 5_189_552.530103],
  ])('%j', (position, zone, eastingM, northingM) => {
    const place = toUtm(position);
    expect(place?.zone).toBe(zone);
    expect(place?.eastingM).toBeCloseTo(eastingM, 6);
    expect(place?.northingM).toBeCloseTo(northingM, 6);
  });
});
