import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cases } from '../cases';
import { between } from '../evenly-drawn';
import type { LngLat } from '../../src/core/domain/coordinates';
import { fromUtm, isNorthBand, toUtm } from '../../src/core/line/utm';

const semiMajorM = 6_378_137;
const flattening = 1 / 298.257223563;
const n = flattening / (2 - flattening);
const e = Math.sqrt(flattening * (2 - flattening));
const rectifyingRadiusM = (semiMajorM / (1 + n)) * (1 + n ** 2 / 4 + n ** 4 / 64 + n ** 6 / 256);

/** Coefficients of n, n^2 ... n^6. */
const series = (rows: readonly (readonly number[])[]): number[] =>
  rows.map((row) => row.reduce((sum, coefficient, i) => sum + coefficient * n ** (i + 1), 0));

/** @source C.F.F. Karney, "Transverse Mercator with an accuracy of a few nanometers", J. Geodesy 85 (2011) 475-485, eq. 35. */
const alpha = series([
  [1 / 2, -2 / 3, 5 / 16, 41 / 180, -127 / 288, 7891 / 37800],
  [0, 13 / 48, -3 / 5, 557 / 1440, 281 / 630, -1983433 / 1935360],
  [0, 0, 61 / 240, -103 / 140, 15061 / 26880, 167603 / 181440],
  [0, 0, 0, 49561 / 161280, -179 / 168, 6601661 / 7257600],
  [0, 0, 0, 0, 34729 / 80640, -3418889 / 1995840],
  [0, 0, 0, 0, 0, 212378941 / 319334400],
]);
const radians = Math.PI / 180;

/** Tangent of the conformal latitude from that of the geodetic one (ibid., eq. 7 to 9). */
function conformalTan(tan: number): number {
  const sigma = Math.sinh(e * Math.atanh((e * tan) / Math.hypot(1, tan)));
  return tan * Math.hypot(1, sigma) - sigma * Math.hypot(1, tan);
}

/** Easting and northing in a zone, by the series: metres, without the false northing of the south. */
function bySeries([lngDeg, latDeg]: LngLat, zone: number): readonly [eastM: number, northM: number] {
  const lng = (((lngDeg - (zone * 6 - 183) + 540) % 360) - 180) * radians;
  const conformal = conformalTan(Math.tan(latDeg * radians));
  const xi = Math.atan2(conformal, Math.cos(lng));
  const eta = Math.asinh(Math.sin(lng) / Math.hypot(conformal, Math.cos(lng)));
  const sum = (term: (j: number) => number) =>
    alpha.reduce((total, coefficient, i) => total + coefficient * term(i + 1), 0);
  const scaleM = 0.9996 * rectifyingRadiusM;
  return [
    500_000 + scaleM * (eta + sum((j) => Math.cos(2 * j * xi) * Math.sinh(2 * j * eta))),
    scaleM * (xi + sum((j) => Math.sin(2 * j * xi) * Math.cosh(2 * j * eta))),
  ];
}

/** Karney's series to the sixth order as a second opinion, written from the paper: nanometres within a zone. */
test('UTM agrees with the published series wherever the grid is used', () => {
  fc.assert(
    fc.property(between(-180, 180), between(-80, 84), (lng, lat) => {
      const place = toUtm([lng, lat]);
      if (place === null) throw new Error('inside the grid there is a place');
      const isNorth = isNorthBand(place.band);
      const [eastM, northM] = bySeries([lng, lat], place.zone);
      const offM = Math.hypot(place.eastingM - eastM, place.northingM - northM - (isNorth ? 0 : 10_000_000));
      expect(offM).toBeLessThan(1e-6);
      const back = fromUtm({ ...place, isNorth });
      expect(back[1]).toBeCloseTo(lat, 10);
      expect((((back[0] - lng + 540) % 360) - 180).toFixed(9)).toMatch(/^-?0\.0+$/);
    }),
    { numRuns: cases(2000), seed: 1 },
  );
});
