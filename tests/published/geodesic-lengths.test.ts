import { describe, expect, test } from 'vitest';
import type { LngLat } from '../../src/core/domain/coordinates';
import { bearingDeg, distanceM, turnDeg, wrapLngDeg } from '../../src/core/line/geodesic';
import { lineLengthM, makeStations, positionAt } from '../../src/core/line/stations';

type Row = readonly [from: LngLat, azimuthDeg: number, to: LngLat, lengthM: number];

/**
 * C.F.F. Karney's test set for geodesics on WGS 84 (GeodTest.dat, computed in high precision; doi:10.5281/zenodo.32156), the
 * twenty rows that GeographicLib's own tests use, here to 1e-7 m and 1e-12 degrees. Longitudes may run beyond 180.
 * Tolerances: 1e-6 m, 1e-9 degrees.
 */
const rows: readonly Row[] = [
  [[-139.44815, 35.60777], 111.09874842956, [-69.95921, -11.17491], 8935244.5604818],
  [[106.05087, 55.52454], 22.020059880983, [197.18234, 77.03196], 4105086.1713924],
  [[142.59065, -21.97856], -32.444568764332, [98.56635, 41.84138], 8394328.8946577],
  [[112.2363, -66.99028], 173.734912408784, [285.90344, -12.70631], 11150344.231208],
  [[173.34268, -17.42761], -159.033557661193, [5.93557, -15.84784], 16076603.1631181],
  [[48.28919, 32.84994], 150.492927788122, [202.29132, -56.28556], 16727068.9438164],
  [[52.74123, 6.96833], 92.581585386318, [206.17291, -7.39675], 17102477.2496958],
  [[-16.30485, -50.56724], -105.43967990759, [-94.97412, -33.56571], 6455670.5118669],
  [[-8.90775, -58.93002], 140.965397902501, [133.13503, -8.91104], 11756066.0219865],
  [[-74.28391, -68.82867], 93.774347763115, [-8.36685, -50.63005], 3956936.9260635],
  [[-32.0898, -10.62672], -86.426713286748, [-134.31681, 5.883], 11470869.3864563],
  [[166.90563, -21.76221], 29.319421206936, [213.97627, 48.72884], 9098627.3986555],
  [[-174.47484, -19.79938], 71.167275780172, [-154.35109, -11.99349], 2319004.8601169],
  [[-116.94513, -11.95887], 92.712619830453, [7.16501, 4.57352], 13834722.5801401],
  [[85.66836, -87.85331], -65.120313040243, [16.09921, 66.48646], 17286615.3147145],
  [[128.32011, 1.74708], -101.584843631174, [11.87109, -11.16617], 12942901.1241347],
  [[-144.90758, -25.72959], -153.647468693117, [-269.17879, -57.70581], 9413446.7452453],
  [[122.32875, -41.22777], 14.285113402276, [130.37946, -7.57291], 3812686.035106],
  [[138.25278, 11.01307], 79.436826227824, [247.05981, 6.62726], 11911190.8190184],
  [[95.14681, -29.47124], -163.779130441688, [-69.15955, -27.46601], 13487015.8381145],
];

describe.each(rows)('from %j', (from, azimuthDeg, to, lengthM) => {
  const end: LngLat = [wrapLngDeg(to[0]), to[1]];

  test('length and direction', () => {
    expect(Math.abs(distanceM(from, end) - lengthM)).toBeLessThan(1e-6);
    expect(Math.abs(turnDeg(azimuthDeg, bearingDeg(from, end)))).toBeLessThan(1e-9);
  });

  test('a line of one edge is as long, and walked half way twice', () => {
    expect(Math.abs(lineLengthM([from, end]) - lengthM)).toBeLessThan(1e-6);
    const middle = positionAt([from, end], lengthM / 2);
    expect(Math.abs(distanceM(from, middle) - lengthM / 2)).toBeLessThan(1e-6);
    expect(Math.abs(distanceM(middle, end) - lengthM / 2)).toBeLessThan(1e-6);
  });
});

test('every published row was compared', () => {
  expect(rows).toHaveLength(20);
});

/** PROJ 9.1.1 (geod +ellps=WGS84), printed to a millimetre: 1067.582 m; on the mean sphere it would be 1067.608 m. */
test('a short leg in the mountains', () => {
  expect(distanceM([6.8652, 45.8326], [6.87, 45.8416])).toBeCloseTo(1067.582, 3);
});

/**
 * Promised: within 0.1 % of the geodesic anywhere. PROJ 9.1.1 (geod -I +ellps=WGS84) from 89°59' N, 30° E over the pole to
 * 150° W: 3723.132651 m. A degree of the equator is a degree of a circle of the equatorial radius.
 */
test('stations over the pole and over the 180th meridian', () => {
  const overPole: LngLat[] = [
    [30, 90 - 1 / 60],
    [-150, 90 - 1 / 60],
  ];
  const length = makeStations(overPole, { stepM: 5, alsoAtM: [] }).at(-1)?.alongM ?? 0;
  expect(length).toBeCloseTo(3723.132651, 5);
  const overMeridian: LngLat[] = [
    [179.5, 0],
    [-179.5, 0],
  ];
  expect(lineLengthM(overMeridian)).toBeCloseTo((6_378_137 * Math.PI) / 180, 6);
});
