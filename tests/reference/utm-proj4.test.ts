import fc from 'fast-check';
import proj4 from 'proj4';
import { expect, test } from 'vitest';
import { fromUtm, isNorthBand, toUtm } from '../../src/core/line/utm';

/** proj4js 2.22 (its `utm` is the extended transverse Mercator of PROJ) as a second opinion, 1e-6 m. */
test('UTM agrees with proj4 wherever the grid is used', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -180, max: 180, noNaN: true }),
      fc.double({ min: -80, max: 84, noNaN: true }),
      (lng, lat) => {
        const place = toUtm([lng, lat]);
        if (place === null) throw new Error('inside the grid there is a place');
        const south = isNorthBand(place.band) ? '' : ' +south';
        const [east, north] = proj4(`+proj=utm +zone=${place.zone}${south} +datum=WGS84 +units=m`).forward([
          lng,
          lat,
        ]);
        expect(Math.hypot(place.eastingM - (east ?? NaN), place.northingM - (north ?? NaN))).toBeLessThan(
          1e-6,
        );
        const back = fromUtm({ ...place, isNorth: isNorthBand(place.band) });
        expect(back[1]).toBeCloseTo(lat, 10);
        expect((((back[0] - lng + 540) % 360) - 180).toFixed(9)).toMatch(/^-?0\.0+$/);
      },
    ),
    { numRuns: 2000, seed: 1 },
  );
});
