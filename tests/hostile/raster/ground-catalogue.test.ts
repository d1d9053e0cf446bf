import { deflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import type { LngLat } from '../../../src/core/domain/coordinates';
import { cellCentre, type Raster } from '../../../src/core/domain/raster';
import type { GroundProfile } from '../../../src/core/domain/station';
import { bufferSource } from '../../../src/core/files/raster/byte-source';
import { openRaster } from '../../../src/core/files/raster/open';
import { groundAt } from '../../../src/core/ground/ground-at';
import { positionOfCell } from '../../../src/core/ground/ground-scale';
import { readGround } from '../../../src/core/ground/read-ground';
import { makeStations } from '../../../src/core/line/stations';
import { terrainSaid } from '../../../src/core/plan/terrain-said';
import { terrainFacts } from '../../../src/core/sheet/sheet-sources';
import { opened, readWhole, refused } from '../../core/files/raster/read-whole';
import { geoKeys, utmFields, writeTiff, type TiffPlan } from '../../core/files/raster/write-tiff';
import { makeRaster } from '../../core/ground/made-raster';

const codes = ({ notes }: { readonly notes: readonly { readonly code: string }[] }) =>
  notes.map(({ code }) => code);
const profileOn = (points: readonly LngLat[], rasters: readonly Raster[]): Promise<GroundProfile> =>
  readGround({
    stations: makeStations(points, { stepM: 5, alsoAtM: [] }),
    rasters,
    marks: [],
    figures: defaultFigures,
    sigmaZM: rasters.map(() => null),
    stepM: 5,
  });

describe('B10 a world file beside a raster without a place', () => {
  const bare: TiffPlan = { without: [33550, 33922] };
  const worldFile = '10\r\n0.0\r\n0.0\r\n-10\r\n500005\r\n5099995\r\n';

  test('places it: its numbers name the centre of the first cell', async () => {
    const raster = await opened(writeTiff(bare), { worldFile });
    const same = await opened(writeTiff());
    expect(raster.affine).toEqual(same.affine);
  });

  test('says nothing of the coordinate system: that is asked for, and then good', async () => {
    const plan = { without: [33550, 33922, 34735] };
    expect(await refused(writeTiff(plan), { worldFile })).toMatchObject({
      code: 'CRS-001',
      question: { kind: 'crs' },
    });
    const raster = await opened(writeTiff(plan), { worldFile, crs: 'EPSG:32632' });
    expect(cellCentre(raster.affine, [0, 0])).toEqual([500005, 5099995]);
  });

  test('is not needed where the file has its own place', async () => {
    const raster = await opened(writeTiff(), { worldFile: '1\n0\n0\n-1\n0\n0\n' });
    expect(cellCentre(raster.affine, [0, 0])).toEqual([500005, 5099995]);
  });

  test.each([
    ['too short', '10\n0\n0\n-10\n500005\n', 'TIF-010', /has 5 lines; six numbers/],
    ['with a decimal comma', '10,5\n0\n0\n-10\n500005\n5099995', 'TIF-010', /"10,5" in line 1/],
    ['no text at all', '', 'TIF-010', /1 lines/],
    ['turned', '8\n6\n6\n-8\n500005\n5099995\n', 'TIF-012', /rotated/],
  ])('%s: refused', async (_, text, code, title) => {
    const problem = await refused(writeTiff(bare), { worldFile: text });
    expect(problem.code).toBe(code);
    expect(problem.title).toMatch(title);
  });
});

describe('B27 what heights are counted from', () => {
  const keyed = (vertical: number): TiffPlan => ({
    fields: [geoKeys([1024, 1], [1025, 1], [3072, 32632], [4096, vertical], [4099, 9001])],
  });
  test.each([
    ['not said', {}, null, 'UNIT-101', /sea level or the ellipsoid: not said/],
    [
      'not said beside the unit',
      { fields: [geoKeys([1024, 1], [1025, 1], [3072, 32632], [4099, 9001])] },
      null,
      'UNIT-103',
      /not said/,
    ],
    ['sea level', keyed(5773), 'sea level', null, /heights ±\d\.\d m from sea level/],
    ['the ellipsoid, as WGS 84 in space', keyed(4979), 'ellipsoid', 'UNIT-104', /from the ellipsoid/],
    ['the ellipsoid, by an old code', keyed(5030), 'ellipsoid', 'UNIT-104', /from the ellipsoid/],
  ] as const)('%s: noted, and on the sheet', async (_, plan, from, note, printed) => {
    const raster = await opened(writeTiff(plan));
    expect(raster.heightsFrom).toBe(from);
    expect(codes(raster).filter((code) => /UNIT-10[134]/.test(code))).toEqual(note === null ? [] : [note]);
    const { terrain, stations } = await profileOn(
      [positionOfCell(raster, 1, 1), positionOfCell(raster, 2, 2)],
      [raster],
    );
    expect(terrainFacts(terrain, stations, null, 'metric')[0]?.text).toMatch(printed);
  });
});

test('B29 whether trees and roofs are part of it no file says: noted', async () => {
  const raster = await opened(writeTiff());
  expect(raster.notes.map(({ text }) => text).join()).toMatch(/trees and roofs/);
});

test('B30 no date of survey: on the sheet as unknown; the user’s own word is believed', async () => {
  const raster = await opened(writeTiff());
  const { terrain, stations } = await profileOn(
    [positionOfCell(raster, 1, 1), positionOfCell(raster, 2, 2)],
    [raster],
  );
  const printed = (of: typeof terrain) => terrainFacts(of, stations, '2031-05-14', 'metric')[0]?.text;
  expect(printed(terrain)).toMatch(/date of survey unknown/);
  const said = {
    fileName: 'grid.tif',
    checksum: null,
    crs: null,
    elevationUnit: null,
    surveyed: '2027',
    sigmaZM: null,
  };
  expect(printed(terrainSaid(terrain, { terrain: [said] }))).toMatch(/surveyed 2027, 4 years before the day/);
});

describe('B31, B32 rasters that do not cover the line, or do not agree', () => {
  const plane = (offsetM: number) => (x: number) => 2000 + x / 3 + offsetM;
  const made = { widthPx: 40, heightPx: 40, cellM: 10 };
  const at = (x: number, raster: Raster): LngLat => raster.frame.toLngLat([x, 0]);

  test('B31 the part without ground is empty, and its length is told', async () => {
    const raster = makeRaster(made, plane(0));
    const profile = await profileOn([at(-100, raster), at(300, raster)], [raster]);
    expect(profile.notes).toMatchObject([{ code: 'GROUND-002', text: '0.1 of 0.4 km have no ground data' }]);
    for (const { alongM, elevationM, slopeDeg, runOut } of profile.stations) {
      if (alongM < 285) expect(slopeDeg).not.toBeNull();
      if (alongM > 300) expect([elevationM, slopeDeg, runOut]).toEqual([null, null, null]);
    }
  });

  test('B32 two that differ by more than 5 m where the line passes from one to the other', async () => {
    const coarse = makeRaster({ ...made, cellM: 20, name: 'coarse' }, plane(12));
    const fine = makeRaster({ ...made, cellM: 5, name: 'fine' }, plane(0));
    const profile = await profileOn([at(0, fine), at(300, fine)], [coarse, fine]);
    expect(profile.notes).toMatchObject([
      {
        code: 'GROUND-003',
        subject: 'fine / coarse',
        text: expect.stringMatching(/differ by 12 m/) as string,
      },
      {
        code: 'GROUND-005',
        text: 'coarse differs from fine, which is used, by more than 5 m over 93 m of the line; most by 12 m, at 50 m',
      },
    ]);
  });
});

test('B32 two that differ where one of them is never used', async () => {
  const made = { widthPx: 40, heightPx: 40, cellM: 10 };
  const fine = makeRaster({ ...made, name: 'fine' }, (x) => 2000 + x / 3);
  const off = (byM: number) =>
    makeRaster({ ...made, cellM: 20, name: 'coarse' }, (x) => 2000 + x / 3 + (x > 150 ? byM : 0));
  const at = (x: number): LngLat => fine.frame.toLngLat([x, 0]);
  const notesOn = async (byM: number) => (await profileOn([at(0), at(180)], [fine, off(byM)])).notes;
  expect(await notesOn(4)).toEqual([]);
  const [note, ...more] = await notesOn(-9);
  expect(more).toEqual([]);
  expect(note).toMatchObject({ code: 'GROUND-005', subject: 'fine / coarse' });
  expect(note!.text).toMatch(
    /^coarse differs from fine, which is used, by more than 5 m over \d\d m of the line; most by 9 m/,
  );
});

/** 100 000 cells a side with two overviews, every tile of a level the same one: 0.5 MB that stand for 30 GB. */
function huge(): Uint8Array {
  const tilePx = 512;
  const tile = new Float32Array(tilePx * tilePx);
  for (let i = 0; i < tile.length; i++) tile[i] = 2000 + (i % tilePx) / 2;
  const stored = new Uint8Array(deflateSync(new Uint8Array(tile.buffer)));
  const level = (sidePx: number) => {
    const tiles = Math.ceil(sidePx / tilePx) ** 2;
    return [
      [256, 4, [sidePx]],
      [257, 4, [sidePx]],
      [322, 4, [tilePx]],
      [323, 4, [tilePx]],
      [324, 16, Array.from({ length: tiles }, () => 16)],
      [325, 4, Array.from({ length: tiles }, () => stored.length)],
    ] as const;
  };
  const coarser = (sidePx: number) =>
    [[254, 4, [1]], ...level(sidePx), [258, 3, [32]], [259, 3, [8]], [277, 3, [1]], [339, 3, [3]]] as const;
  return writeTiff({
    isBig: true,
    compression: 8,
    without: [273, 278, 279],
    cells: [0, 0, 0, 0],
    rowsPerStrip: 1,
    pack: () => stored,
    fields: [...level(100_000), ...utmFields.map((field) => field)],
    more: [coarser(12_500), coarser(391)],
  });
}

test('B37 a raster of 100 000 x 100 000 with overviews: windows only', async () => {
  const bytes = huge();
  let readBytes = 0;
  const inner = bufferSource('huge.tif', bytes);
  const result = await openRaster({
    ...inner,
    read: (offset, length, cancel) => {
      readBytes += length;
      return inner.read(offset, length, cancel);
    },
  });
  if (!result.ok) throw new Error(result.problem.title);
  const raster = result.value;
  expect([raster.widthPx, raster.overviews.map(({ widthPx }) => widthPx)]).toEqual([100_000, [12_500, 391]]);
  const before = process.memoryUsage().arrayBuffers;
  const line = [40_000, 40_500, 41_000].map((col) => positionOfCell(raster, col, 50_000 + col / 10));
  const { stations } = await profileOn(line, [raster]);
  expect(stations.every(({ slopeDeg }) => slopeDeg !== null)).toBe(true);
  expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(80e6);
  expect(readBytes).toBeLessThan(3e6);
});

describe('B38 what says beside the cells whether they hold', () => {
  const hill = Array.from({ length: 12 }, (_, i) => 1000 + i);
  const isHole = (i: number) => i === 5 || i === 6;

  test.each([
    ['together, cell by cell', 1, hill.flatMap((z, i) => [z, isHole(i) ? 0 : 65535])],
    ['one band after the other', 2, [...hill, ...hill.map((_, i) => (isHole(i) ? 0 : 65535))]],
  ])('B38 an alpha band (%s) makes holes', async (_, planar, cells) => {
    const common = { kind: 'uint', bits: 16, cells } as const;
    const raster = await opened(
      writeTiff(
        planar === 1
          ? { ...common, bands: 2, fields: [[338, 3, [2]]] }
          : { ...common, heightPx: 6, rowsPerStrip: 3, fields: [[257, 4, [3]], [258, 3, [16, 16]], [277, 3, [2]], [278, 4, [3]], [284, 3, [2]], [338, 3, [2]]] },
      ),
    ); // prettier-ignore
    expect([...(await readWhole(raster))]).toEqual(hill.map((z, i) => (isHole(i) ? NaN : z)));
    expect(codes(raster)).toContain('TIF-101');
  });

  test('B38 a second band that is no alpha makes none', async () => {
    const raster = await opened(
      writeTiff({ bands: 2, cells: hill.flatMap((z) => [z, 0]), fields: [[338, 3, [0]]] }),
    );
    expect([...(await readWhole(raster))]).toEqual(hill);
  });

  test('B38 a mask in a file of its own cannot be left out: refused', async () => {
    expect(await refused(writeTiff(), { beside: ['grid.tif.ovr', 'grid.tif.msk'] })).toMatchObject({
      code: 'TIF-018',
      place: 'grid.tif.msk',
    });
  });

  test('B38 coarser pictures in a file of their own are left out, and that is said', async () => {
    const raster = await opened(writeTiff(), { beside: ['grid.tif.ovr'] });
    expect(raster.notes.find(({ code }) => code === 'TIF-112')?.text).toMatch(
      /grid\.tif\.ovr, which is not read/,
    );
  });
});

describe('B39 across the 180th meridian', () => {
  const cells = Array.from({ length: 40 * 20 }, (_, i) => 1000 + (i % 40) * 10);
  const onBoth: readonly LngLat[] = [
    [179.9905, -48.4905],
    [-179.9905, -48.4905],
    [-179.99949, -48.4905],
  ];

  test.each([
    ['counted on beyond 180', 179.98],
    ['counted from beyond -180', -180.02],
  ])('degrees %s', async (_, west) => {
    const raster = await opened(
      writeTiff({
        widthPx: 40,
        heightPx: 20,
        cells,
        fields: [
          geoKeys([1024, 2], [1025, 1], [2048, 4326]),
          [33550, 12, [0.001, 0.001, 0]],
          [33922, 12, [0, 0, 0, west, -48.48, 0]],
        ],
      }),
    );
    const read = await groundAt(onBoth, [raster]);
    expect(read.map(({ elevationM }) => elevationM)).toEqual(
      [1100, 1290, 1200.1].map((z) => expect.closeTo(z, 1) as number),
    );
    expect(
      read.every(({ slopeDeg }) => slopeDeg !== null && Math.abs(slopeDeg - read[0]!.slopeDeg!) < 1e-3),
    ).toBe(true);
  });

  test('UTM metres', async () => {
    const raster = await opened(
      writeTiff({
        widthPx: 40,
        heightPx: 20,
        cells,
        fields: [
          geoKeys([1024, 1], [1025, 1], [3072, 32701]),
          [33550, 12, [100, 100, 0]],
          [33922, 12, [0, 0, 0, 276_300, 4_626_500, 0]],
        ],
      }),
    );
    const [west, east] = [positionOfCell(raster, 3, 10), positionOfCell(raster, 37, 10)];
    expect(Math.sign(west[0]) * Math.sign(east[0])).toBe(-1);
    const { stations, lengthM } = await profileOn([west, east], [raster]);
    expect(lengthM).toBeGreaterThan(3395);
    expect(lengthM).toBeLessThan(3405);
    expect(stations.every(({ slopeDeg }) => slopeDeg !== null && Math.abs(slopeDeg - 5.71) < 0.05)).toBe(
      true,
    );
  });
});
