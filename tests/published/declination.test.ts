import { expect, test } from 'vitest';
import { declinationAt } from '../../src/core/sheet/declination';

/**
 * NOAA/NCEI and British Geological Survey, test values published with the World Magnetic Model 2015 (WMM2015 test values)
 * and 2020, rows at height 0. Dates are decimal years: .5 is 2 July. Read from the copy kept with the package
 * `geomagnetism` (test/values.csv). Tolerance 0.03 degrees: a day's drift, and the model's rounding.
 */
const published = [
  { date: '2015-01-01', latDeg: 80, lngDeg: 0, declDeg: -3.85, h: 6642.1 },
  { date: '2015-01-01', latDeg: 0, lngDeg: 120, declDeg: 0.57, h: 39520.2 },
  { date: '2015-01-01', latDeg: -80, lngDeg: 240, declDeg: 69.81, h: 16793.5 },
  { date: '2017-07-02', latDeg: 80, lngDeg: 0, declDeg: -2.75, h: 6607.0 },
  { date: '2017-07-02', latDeg: 0, lngDeg: 120, declDeg: 0.32, h: 39572.0 },
  { date: '2017-07-02', latDeg: -80, lngDeg: 240, declDeg: 69.58, h: 16839.1 },
  { date: '2022-07-02', latDeg: -13, lngDeg: -59, declDeg: -16.65, h: 22751.7 },
];

test.each(published)(
  '$declDeg degrees at $latDeg, $lngDeg on $date',
  ({ date, latDeg, lngDeg, declDeg, h }) => {
    const found = declinationAt([lngDeg, latDeg], date);
    expect(Math.abs((found?.deg ?? NaN) - declDeg)).toBeLessThan(0.03);
    // Error model of the WMM2025 report, eq. for declination; same tolerance in H as the package's own tests, 5 nT.
    expect(found?.sigmaDeg).toBeCloseTo(Math.hypot(0.26, 5417 / h), 2);
  },
);

test('every published row was compared', () => {
  expect(published).toHaveLength(7);
});
