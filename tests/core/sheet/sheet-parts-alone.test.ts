import { describe, expect, test } from 'vitest';
import { MapLabels } from '../../../src/core/sheet/map-labels';
import { northText } from '../../../src/core/sheet/map-furniture';
import { planPlane } from '../../../src/core/sheet/plan-plane';
import { sheetWarnings } from '../../../src/core/sheet/sheet-warnings';
import { fnv1a } from '../../../src/core/sheet/state-mark';

describe('the mark of a state', () => {
  /** Test vectors of 32-bit FNV-1a in IETF draft-eastlake-fnv, appendix C (from memory of it). */
  test.each([
    ['', '811c9dc5'],
    ['a', 'e40c292c'],
    ['foobar', 'bf9cf968'],
  ])('%j', (text, hash) => {
    expect(fnv1a(text)).toBe(hash);
  });
});

test('what says the same of several places is said once, the heaviest first', () => {
  const warning = (weight: 1 | 2 | 3, code: string, text: string, fromM: number | null) => ({
    weight,
    code,
    text,
    fromM,
    toM: fromM === null ? null : fromM + 20,
  });
  const said = sheetWarnings(
    {
      warnings: [
        warning(2, 'slope', '25° may be 27°.', 100),
        warning(2, 'slope', '31° may be 36°.', 300),
        warning(2, 'slope', '9 more places: 31° may be 36°.', 500),
        warning(3, 'bridge', 'A bridge.', null),
        warning(1, 'slope', '25° may be 27°.', 700),
        warning(2, 'device-limit', 'Said by the cautions.', 900),
      ],
      wayBack: { warnings: [1, 2, 3, 4, 5].map((k) => warning(2, 'slope', '25° may be 27°.', 100 * k)) },
    },
    'metric',
  );
  expect(said).toEqual([
    { weight: 3, text: 'A bridge.', place: '', isFront: true },
    {
      weight: 2,
      text: '25° may be 27°.',
      place: '100–120\u202fm, 300–320\u202fm; back 100–120\u202fm, 200–220\u202fm, 300–320\u202fm and 2 more',
      isFront: true,
    },
    { weight: 2, text: '9 more places: 31° may be 36°.', place: '500–520\u202fm', isFront: true },
    { weight: 2, text: 'Said by the cautions.', place: '900–920\u202fm', isFront: false },
    { weight: 1, text: '25° may be 27°.', place: '700–720\u202fm', isFront: false },
  ]);
});

test('no word stands on another or over the edge of the map', () => {
  const labels = new MapLabels(200, 100);
  labels.keepFree(0, 0, 50, 50);
  expect(labels.place('in the corner', [{ x: 10, y: 20, anchor: 'start' }])).toEqual([]);
  expect(labels.place('beyond', [{ x: 190, y: 60, anchor: 'start' }])).toEqual([]);
  expect(labels.place('first', [{ x: 100, y: 60, anchor: 'start' }])).toHaveLength(1);
  expect(labels.place('second', [{ x: 110, y: 62, anchor: 'start' }])).toEqual([]);
  expect(
    labels.place('second', [
      { x: 110, y: 62, anchor: 'start' },
      { x: 90, y: 90, anchor: 'middle' },
    ]),
  ).toHaveLength(1);
});

describe('which north is up', () => {
  /** Meridian convergence of a transverse Mercator on the sphere, atan(tan(lng - lng0) sin(lat)); textbook formula. */
  test.each([
    [-24.5, 51],
    [-29.5, 51],
    [9.5, -46],
  ])('%d, %d', (lng, lat) => {
    const plane = planPlane([
      [lng, lat],
      [lng + 0.01, lat],
    ]);
    const aside = (((lng + 180) % 6) - 3) * (Math.PI / 180);
    const gammaDeg = (Math.atan(Math.tan(aside) * Math.sin((lat * Math.PI) / 180)) * 180) / Math.PI;
    expect(Math.abs((plane.gridNorthDeg ?? NaN) - gammaDeg)).toBeLessThan(0.01);
  });

  test('in words', () => {
    expect(northText(planPlane([[-25.5, 51]]))).toContain('° east of true north');
    expect(northText(planPlane([[-27, 51]]))).toContain('which is true north here');
    expect(northText(planPlane([[0, 89]]))).toContain('True north up');
  });
});
