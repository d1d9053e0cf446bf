import { describe, expect, test } from 'vitest';
import { makeFrame } from '../../../../src/core/files/raster/crs/frame';
import { systemOfEpsg } from '../../../../src/core/files/raster/crs/system';
import { loadCrsTable, loadUsualTable, shiftAt } from '../../../../src/core/files/raster/crs/table';
import { opened, refused } from './read-whole';
import { writeTiff, type FieldText } from './write-tiff';

/** GeoKeys with whole numbers, real ones and words, in the three tags that hold them (OGC 19-008r4, 7.1.2). */
function keys(list: Readonly<Record<number, number | readonly number[] | string>>): FieldText[] {
  const doubles: number[] = [];
  let ascii = '';
  const entries = Object.entries(list).flatMap(([key, value]) => {
    if (typeof value === 'number') return [Number(key), 0, 1, value];
    if (typeof value === 'string') {
      const at = ascii.length;
      ascii += `${value}|`;
      return [Number(key), 34737, value.length + 1, at];
    }
    doubles.push(...value);
    return [Number(key), 34736, value.length, doubles.length - value.length];
  });
  return [
    [34735, 3, [1, 1, 0, Object.keys(list).length, ...entries]],
    ...(doubles.length > 0 ? ([[34736, 12, doubles]] as const) : []),
    ...(ascii === '' ? [] : ([[34737, 2, `${ascii}\0`]] as const)),
  ];
}

const own = { 1024: 1, 1025: 1, 3072: 32767 } as const;
const named = (text: string, more = {}) => keys({ 1024: 1, 3072: 32767, 1026: text, ...more });

describe('a system that is only named', () => {
  test.each([
    ['WGS 84 / UTM zone 32N', 'EPSG:32632'],
    ['UTM Zone 32, Northern Hemisphere|WGS_1984', 'EPSG:32632'],
    ['WGS 84 / UTM zone 19S', 'EPSG:32719'],
    ['UTM zone 19, southern hemisphere, WGS84', 'EPSG:32719'],
    ['ETRS89 / UTM zone 32N', 'EPSG:25832'],
    ['NAD83 / UTM zone 10N', 'EPSG:26910'],
    ['taken over from EPSG:2056', 'EPSG:2056'],
  ])('%s', async (text, name) => {
    const at: FieldText = [
      33922,
      12,
      [0, 0, 0, name === 'EPSG:2056' ? 2600000 : 500000, name === 'EPSG:2056' ? 1100000 : 5100000, 0],
    ];
    const raster = await opened(writeTiff({ fields: [...named(text), at] }));
    expect(raster.frame.name).toBe(name);
  });

  test.each([
    ['a zone on no datum', 'UTM zone 32N'],
    ['on two', 'WGS 84, once ETRS89 / UTM zone 32N'],
    ['on neither side of the equator', 'WGS 84 / UTM zone 32'],
    ['a zone that is none', 'WGS 84 / UTM zone 61N'],
    ['a zone before the first', 'WGS 84 / UTM zone 0N'],
    ['south, where the datum has no zones', 'ETRS89 / UTM zone 32S'],
    ['something else', 'the old survey of the valley'],
  ])('%s: asked for, with what was said', async (_, text) => {
    const problem = await refused(writeTiff({ fields: named(text) }));
    expect(problem).toMatchObject({ code: 'CRS-005', question: { kind: 'crs' } });
    expect(problem.title).toContain(`("${text}")`);
  });
});

/** Transverse Mercator at 9 degrees, as a whole. */
const tm = {
  ...own,
  3074: 32767,
  3075: 1,
  3080: [9],
  3081: [0],
  3082: [500000],
  3083: [0],
  3092: [0.9996],
} as const;

describe('keys that spell a system out', () => {
  const utm = [500000, 5100000] as const;
  test.each([
    ['by the datum’s code', { ...tm, 2050: 6326 }],
    ['by an ellipsoid like WGS 84’s', { ...tm, 2056: 7030 }],
    ['by axes and flattening', { ...tm, 2057: [6378137], 2059: [298.257223563], 2061: [0] }],
    ['by two axes and a shift', { ...tm, 2057: [6378137], 2058: [6356752.314245], 2062: [0, 0, 0] }],
    ['with seven numbers of shift', { ...tm, 2056: 7019, 2062: [0, 0, 0, 0, 0, 0, 0] }],
    ['from another meridian', { ...tm, 3080: [6.5], 2057: [6378137], 2059: [298.257223563], 2061: [2.5] }],
    ['with metres by their own size', { ...tm, 2050: 6326, 3076: 32767, 3077: [1] }],
    ['with angles in gons', { ...tm, 3080: [10], 2048: 4326, 2054: 9105 }],
    ['with angles by their own size', { ...tm, 3080: [9], 2048: 4326, 2054: 32767, 2055: [Math.PI / 180] }],
    ['as a zone of UTM with WGS 84', { ...own, 3074: 16032, 2048: 4326 }],
    ['as a zone of UTM with the datum', { ...own, 3074: 16032, 2050: 6326 }],
  ])('%s', async (_, list) => {
    const raster = await opened(writeTiff({ fields: keys(list) }));
    const [lngDeg, latDeg] = raster.frame.toLngLat(utm);
    expect(lngDeg).toBeCloseTo(9, 8);
    expect(latDeg).toBeCloseTo(46.0535743697774, 8); // gdaltransform (PROJ 9), EPSG:32632 to 4326
  });

  test('as a southern zone of UTM', async () => {
    const raster = await opened(writeTiff({ fields: keys({ ...own, 3074: 16132, 2048: 4326 }) }));
    expect(raster.frame.epsg).toBe(32732);
  });

  test('as a southern zone of UTM with the datum', async () => {
    const raster = await opened(writeTiff({ fields: keys({ ...own, 3074: 16132, 2050: 6326 }) }));
    const [lngDeg, latDeg] = raster.frame.toLngLat(utm);
    expect(lngDeg).toBeCloseTo(9, 8);
    expect(latDeg).toBeCloseTo(-44.2532375187119, 8); // gdaltransform (PROJ 9), EPSG:32732 to 4326
  });

  test.each([
    ['no method', { ...own, 3074: 32767, 2048: 4326 }, /no projection method/],
    ['a method that is not read', { ...tm, 3075: 27, 2048: 4326 }, /projection method 27/],
    ['a part missing', { ...own, 3075: 1, 3081: [0], 2048: 4326 }, /no longitude of origin/],
    ['two parts missing', { ...own, 3075: 8, 3080: [9], 3081: [0], 2048: 4326 }, /no first standard parallel, no second standard parallel/],
    ['no earth', tm, /no known datum and no ellipsoid/],
    ['an ellipsoid nobody knows', { ...tm, 2056: 7999 }, /no known datum and no ellipsoid/],
    ['axes that are no earth’s', { ...tm, 2057: [6378137], 2058: [1] }, /no known datum and no ellipsoid/],
    ['an ellipsoid without shift', { ...tm, 2056: 7004 }, /no datum shift/],
    ['a datum nobody knows', { ...tm, 2048: 4999 }, /EPSG:4999 is not known/],
    ['a unit of length nobody knows', { ...tm, 2048: 4326, 3076: 9999 }, /unit of length 9999/],
    ['a length of no size', { ...tm, 2048: 4326, 3076: 32767, 3077: [0] }, /unit of length 32767/],
    ['a unit of angle nobody knows', { ...tm, 2048: 4326, 2054: 9999 }, /unit of angle 9999/],
    ['an angle of no size', { ...tm, 2048: 4326, 2054: 32767, 2055: [0] }, /unit of angle 32767/],
    ['degrees on no earth', { 1024: 2, 2048: 32767 }, /no known datum and no ellipsoid/],
    ['longitude in gons', { 1024: 2, 2048: 32767, 2056: 7030, 2054: 9105 }, /angles not in degrees/],
    ['metres from the middle of the Earth', { 1024: 3, 2048: 4978 }, /geocentric/],
  ] as const)('%s: refused with what is missing', async (_, list, title) => {
    const problem = await refused(writeTiff({ fields: keys(list) }));
    expect(problem.code).toBe('CRS-005');
    expect(problem.title).toMatch(title);
  }); // prettier-ignore

  test('keys about other things than a system: asked for', async () => {
    expect(await refused(writeTiff({ fields: keys({ 1025: 1 }) }))).toMatchObject({ code: 'CRS-001' });
  });

  test('a number in the directory itself counts too', async () => {
    const fields: FieldText[] = [[34735, 3, [1, 1, 0, 2, 1024, 0, 1, 1, 3072, 34735, 1, 12, 32632]]];
    expect((await opened(writeTiff({ fields }))).frame.epsg).toBe(32632);
  });
});

describe('the table of systems', () => {
  test('every system goes there and back over the middle of its area, to 1e-7 degrees', async () => {
    const table = await loadCrsTable();
    const codes = table.codes();
    expect(codes.length).toBeGreaterThan(5000);
    expect([...codes].sort((a, b) => a - b)).toEqual(codes);
    const apart: number[] = [];
    let went = 0;
    for (const code of codes) {
      const system = await systemOfEpsg(code);
      if (system === null) continue; // a base of others only
      const [west, south, east, north] = system.area!;
      const middle = [(west + (east < west ? east + 360 : east)) / 2, (south + north) / 2] as const;
      const place = [middle[0] > 180 ? middle[0] - 360 : middle[0], middle[1]] as const;
      const shift = shiftAt(system.shifts, ...place)?.parameters ?? [];
      const frame = makeFrame({ ...system, shift }, place[0]);
      const [lngDeg, latDeg] = frame.toLngLat(frame.fromLngLat(place));
      went++;
      const offDeg = Math.hypot((lngDeg - place[0]) * Math.cos((latDeg * Math.PI) / 180), latDeg - place[1]);
      if (!(offDeg < 2e-7)) apart.push(offDeg);
    }
    // Seven turn the Earth so far that what is lost with the height comes to some decimetres.
    expect(apart.length).toBeLessThanOrEqual(7);
    for (const offDeg of apart) expect(offDeg).toBeLessThan(3e-6);
    expect(went).toBeGreaterThan(5000);
  });

  test('the usual systems are those of the whole table, word for word', async () => {
    const [table, usual] = [await loadCrsTable(), await loadUsualTable()];
    const codes = usual.codes();
    expect(codes).toEqual(expect.arrayContaining([4326, 3857, 25832, 26910, 32632, 32727]));
    for (const code of codes) expect(usual.find(code)).toEqual(table.find(code));
  });

  test('what a projection cannot show comes out as no place', async () => {
    const polar = (await systemOfEpsg(3031))!;
    const frame = makeFrame({ ...polar, shift: [] });
    expect(frame.toLngLat([NaN, NaN]).every(Number.isNaN)).toBe(true);
    expect(await systemOfEpsg(4978)).toBeNull();
  });
});
