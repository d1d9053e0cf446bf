import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cases } from '../../cases';
import { between } from '../../evenly-drawn';
import { defaultFigures } from '../../../src/core/assumptions/figures';
import type { LngLat } from '../../../src/core/domain/coordinates';
import type { MapFrame, Raster } from '../../../src/core/domain/raster';
import type { LineStation } from '../../../src/core/domain/station';
import { destination } from '../../destination';
import { groundAt } from '../../../src/core/ground/ground-at';
import { readGround, type GroundRequest } from '../../../src/core/ground/read-ground';
import { geographicFrame, localFrame, makeRaster, middleOfOcean } from './made-raster';

const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);

/** Stations every `stepM` along local x. */
function stationsAlong(raster: Raster, fromX: number, toX: number, stepM = 5): LineStation[] {
  const count = Math.round((toX - fromX) / stepM);
  return Array.from({ length: count + 1 }, (_, i) => ({
    alongM: i * stepM,
    position: raster.frame.toLngLat([fromX + i * stepM, 0]),
    bearingDeg: 90,
  }));
}

const read = (
  stations: readonly LineStation[],
  rasters: readonly Raster[],
  more: Partial<GroundRequest> = {},
) =>
  readGround({
    stations,
    rasters,
    marks: [],
    figures: defaultFigures,
    sigmaZM: rasters.map(() => null),
    stepM: 5,
    ...more,
  });

describe('a plane', () => {
  test('reads its slope and fall line on any cell size, whichever way it falls', async () => {
    await fc.assert(
      fc.asyncProperty(
        between(0.5, 100),
        between(1, 70),
        between(0, 359.9),
        async (cellM, slopeDeg, aspectDeg) => {
          const [east, north] = [
            Math.sin((aspectDeg * Math.PI) / 180),
            Math.cos((aspectDeg * Math.PI) / 180),
          ];
          const raster = makeRaster(
            { widthPx: 9, heightPx: 9, cellM },
            (x, y) => 3000 - (x * east + y * north) * tan(slopeDeg),
          );
          const [point] = await groundAt([raster.frame.toLngLat([0.3 * cellM, -0.2 * cellM])], [raster]);
          expect(point!.slopeDeg).toBeCloseTo(slopeDeg, 3);
          expect(Math.abs(turn(point!.aspectDeg! - aspectDeg))).toBeLessThan(0.01);
          expect(point!.curvaturePerM).toBeCloseTo(0, 4);
        },
      ),
      { numRuns: cases(100) },
    );
  });

  test('reads the same in a grid turned against north', async () => {
    const slopes: number[] = [];
    const aspects: number[] = [];
    for (const turnDeg of [0, 12, 45, 90, 151, 270]) {
      const [c, s] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
      const affine = {
        x0: -100 * c + 100 * s,
        y0: 100 * s + 100 * c,
        colX: 5 * c,
        colY: -5 * s,
        rowX: -5 * s,
        rowY: -5 * c,
      };
      const raster = makeRaster(
        { widthPx: 40, heightPx: 40, cellM: 5, affine },
        (x, y) => 2000 - 0.5 * x + 0.2 * y,
      );
      const [point] = await groundAt([raster.frame.toLngLat([3, 4])], [raster]);
      slopes.push(point!.slopeDeg!);
      aspects.push(point!.aspectDeg!);
    }
    // The test's own frame is true at its middle only, and the scale is taken some 100 m beside it.
    expect(Math.max(...slopes) - Math.min(...slopes)).toBeLessThan(1e-3);
    expect(Math.max(...aspects) - Math.min(...aspects)).toBeLessThan(1e-3);
  });

  /** Falls 30 degrees to the north-east, made by geodesic distance, far north, where a degree of longitude is short. */
  test.each([0, 46, -70, 80])('reads true degrees on a geographic grid at latitude %d', async (lat) => {
    const origin: LngLat = [10, lat];
    const frame = localFrame(origin);
    const cellDeg = 1 / 3600;
    const raster = makeRaster(
      {
        widthPx: 21,
        heightPx: 21,
        cellM: 30,
        frame: geographicFrame,
        affine: {
          x0: 10 - 10.5 * cellDeg,
          y0: lat + 10.5 * cellDeg,
          colX: cellDeg,
          colY: 0,
          rowX: 0,
          rowY: -cellDeg,
        },
      },
      (lng, at) => {
        const [east, north] = frame.fromLngLat([lng, at]);
        return 1000 - ((east + north) / Math.SQRT2) * tan(30);
      },
    );
    const [point] = await groundAt([origin], [raster]);
    expect(point!.slopeDeg).toBeCloseTo(30, 2);
    expect(point!.aspectDeg).toBeCloseTo(45, 2);
  });

  test('reads true degrees in feet', async () => {
    const metres = localFrame(middleOfOcean);
    const feet: MapFrame = {
      ...metres,
      toLngLat: ([x, y]) => metres.toLngLat([x * 0.3048, y * 0.3048]),
      fromLngLat: (position) => {
        const [x, y] = metres.fromLngLat(position);
        return [x / 0.3048, y / 0.3048];
      },
    };
    const raster = makeRaster(
      {
        widthPx: 21,
        heightPx: 21,
        cellM: 3 * 0.3048,
        frame: feet,
        affine: { x0: -31.5, y0: 31.5, colX: 3, colY: 0, rowX: 0, rowY: -3 },
      },
      (x) => 1000 - x * 0.3048 * tan(30),
    );
    const [point] = await groundAt([middleOfOcean], [raster]);
    expect(point!.slopeDeg).toBeCloseTo(30, 3);
    expect(point!.aspectDeg).toBeCloseTo(90, 3);
  });

  test('is read on both sides of the date line', async () => {
    const cellDeg = 1 / 3600;
    const raster = makeRaster(
      {
        widthPx: 40,
        heightPx: 40,
        cellM: 30,
        frame: geographicFrame,
        affine: { x0: 180 - 20 * cellDeg, y0: 20 * cellDeg, colX: cellDeg, colY: 0, rowX: 0, rowY: -cellDeg },
      },
      (lng) => 100 + 1000 * (lng - 180),
    );
    const offsets = [-0.003, -0.001, 0.001, 0.003];
    const points = await groundAt(
      offsets.map((offset): LngLat => [offset < 0 ? 180 + offset : -180 + offset, 0]),
      [raster],
    );
    points.forEach((point, i) => {
      expect(point.elevationM).toBeCloseTo(100 + 1000 * offsets[i]!, 3);
      expect(point.aspectDeg).toBeCloseTo(270, 6);
    });
  });
});

/** No two cells alike, no plane, no axis before the other. */
const height = (col: number, row: number): number =>
  1000 + 17 * Math.sin(2.1 * col + 0.3) + 23 * Math.cos(1.7 * row - col);

describe('missing cells', () => {
  const raster = makeRaster({ widthPx: 40, heightPx: 40, cellM: 5 }, (x, _y, col, row) =>
    col === 20 && row === 20 ? NaN : 1000 - x,
  );
  const at = (col: number, row: number): LngLat => raster.frame.toLngLat([(col - 20) * 5, (20 - row) * 5]);

  test('a window with a missing cell gives no slope, no aspect, no curvature', async () => {
    for (const [dCol, dRow] of [
      [0, 0],
      [-1, -1],
      [0, -1],
      [1, -1],
      [-1, 0],
      [1, 0],
      [-1, 1],
      [0, 1],
      [1, 1],
    ] as const) {
      const [point] = await groundAt([at(20.5 + dCol, 20.5 + dRow)], [raster]);
      expect(point).toMatchObject({ slopeDeg: null, aspectDeg: null, curvaturePerM: null });
    }
    const [beyond] = await groundAt([at(18.5, 20.5)], [raster]);
    expect(beyond!.slopeDeg).toBeCloseTo(45, 3);
  });

  test('an elevation between cells needs all four, one on a centre only its own', async () => {
    const [between, onCentre, missing] = await groundAt(
      [at(19.8, 20.2), at(19.5, 20.5), at(20.5, 20.5)],
      [raster],
    );
    expect(between!.elevationM).toBeNull();
    expect(onCentre!.elevationM).toBeCloseTo(1002.5, 3);
    expect(missing!.elevationM).toBeNull();
  });

  /** Weights written out, as textbooks have them: of each centre the share of the square that lies opposite. */
  test('elevations between four centres are bilinear, in the middle of a raster and at its rim', async () => {
    const rough = makeRaster({ widthPx: 12, heightPx: 12, cellM: 5 }, (_x, _y, col, row) => height(col, row));
    const where = (col: number, row: number): LngLat => rough.frame.toLngLat([(col - 6) * 5, (6 - row) * 5]);
    await fc.assert(
      fc.asyncProperty(between(0.5, 11.5), between(0.5, 11.5), async (col, row) => {
        const [c, r] = [Math.min(10, Math.floor(col - 0.5)), Math.min(10, Math.floor(row - 0.5))];
        const [u, v] = [col - 0.5 - c, row - 0.5 - r];
        const expected =
          height(c, r) * (1 - u) * (1 - v) +
          height(c + 1, r) * u * (1 - v) +
          height(c, r + 1) * (1 - u) * v +
          height(c + 1, r + 1) * u * v;
        const [point] = await groundAt([where(col, row)], [rough]);
        expect(Math.abs(point!.elevationM! - expected)).toBeLessThan(1e-3);
      }),
      { numRuns: 300 },
    );
  });

  test('what a place says does not hang on what was asked before', async () => {
    const rough = makeRaster({ widthPx: 40, heightPx: 40, cellM: 5 }, (x, y, col, row) =>
      col === 20 && row === 20 ? NaN : 1000 + 20 * Math.sin(x / 7) * Math.cos(y / 9),
    );
    const someCells = fc.record({ col: between(21, 23), row: between(20, 23) });
    await fc.assert(
      fc.asyncProperty(fc.array(someCells, { minLength: 2, maxLength: 200 }), async (visited) => {
        const places = visited.map(({ col, row }) => at(col, row));
        const together = await groundAt(places, [rough]);
        for (const [i, place] of places.entries())
          expect([together[i]]).toEqual(await groundAt([place], [rough]));
      }),
      { numRuns: cases(30) },
    );
  });

  test('outside is nothing, and the rim has no slope', async () => {
    const [outside, rim] = await groundAt([at(-3, 10), at(0.7, 10.5)], [raster]);
    expect(outside).toEqual({
      elevationM: null,
      slopeDeg: null,
      aspectDeg: null,
      curvaturePerM: null,
      rasterIndex: null,
    });
    expect(rim!.slopeDeg).toBeNull();
    expect(rim!.elevationM).not.toBeNull();
  });

  test('a station without slope has no run-out, no design slope, no beta, and the profile says how much that is', async () => {
    const hole = makeRaster({ widthPx: 100, heightPx: 20, cellM: 5 }, (x) =>
      x > 0 && x < 50 ? NaN : 1000 - 0.3 * x,
    );
    const profile = await read(stationsAlong(hole, -100, 100), [hole]);
    const inHole = profile.stations.filter(({ elevationM }) => elevationM === null);
    expect(inHole.length).toBeGreaterThan(8);
    for (const station of profile.stations.filter(({ slopeDeg }) => slopeDeg === null)) {
      expect(station).toMatchObject({
        runOut: null,
        designSlopeDeg: null,
        slopeSigmaDeg: null,
        betaDeg: null,
      });
    }
    for (const station of inHole) expect(station).toMatchObject({ gradeDeg: null, rasterIndex: null });
    expect(profile.notes.map(({ code }) => code)).toContain('GROUND-002');
  });
});

describe('several rasters', () => {
  const frame = localFrame(middleOfOcean);
  const coarse = makeRaster(
    { widthPx: 60, heightPx: 60, cellM: 20, name: 'coarse', frame },
    (x) => 1000 - 0.2 * x,
  );
  const fineWith = (lift: number, hole = false) =>
    makeRaster({ widthPx: 80, heightPx: 80, cellM: 5, name: 'fine', frame }, (x, y) =>
      hole && Math.hypot(x, y) < 40 ? NaN : 1000 + lift - 0.2 * x,
    );

  test('the finest that covers a station speaks for it, in whichever order they are given', async () => {
    for (const order of [0, 1] as const) {
      const fine = fineWith(0);
      const rasters = order === 0 ? [coarse, fine] : [fine, coarse];
      const profile = await read(stationsAlong(coarse, -400, 400), rasters);
      for (const { position, rasterIndex } of profile.stations) {
        const [x] = frame.fromLngLat(position);
        if (Math.abs(x) < 194) expect(rasters[rasterIndex!]!.name).toBe('fine');
        if (Math.abs(x) > 201) expect(rasters[rasterIndex!]!.name).toBe('coarse');
      }
      expect(profile.terrain.map(({ cellM, sigmaZM }) => [cellM, sigmaZM])).toEqual(
        order === 0
          ? [
              [20, 4],
              [5, 1],
            ]
          : [
              [5, 1],
              [20, 4],
            ],
      );
    }
  });

  test('a hole falls through to the next', async () => {
    const fine = fineWith(0, true);
    const profile = await read(stationsAlong(coarse, -100, 100), [coarse, fine]);
    expect(
      profile.stations.every(({ slopeDeg }) => Math.abs(slopeDeg! - (Math.atan(0.2) * 180) / Math.PI) < 1e-3),
    ).toBe(true);
    const middle = profile.stations.find(({ alongM }) => alongM === 100)!;
    expect(middle.rasterIndex).toBe(0);
    expect(profile.stations[0]!.rasterIndex).toBe(1);
  });

  test('a jump of heights at a seam is warned of, from 5 m on, and makes no wall in grade or run-out', async () => {
    const profile = await read(stationsAlong(coarse, -400, 400), [coarse, fineWith(12)]);
    const seams = profile.notes.filter(({ code }) => code === 'GROUND-003');
    expect(seams).toHaveLength(2);
    expect(seams[0]!.text).toMatch(/differ by 12 m/);
    for (const { gradeDeg, runOut } of profile.stations) {
      expect(gradeDeg).toBeCloseTo((-Math.atan(0.2) * 180) / Math.PI, 1);
      expect(runOut!.F.class).toBe('gentle');
    }
    const small = await read(stationsAlong(coarse, -400, 400), [coarse, fineWith(4)]);
    expect(small.notes.filter(({ code }) => code === 'GROUND-003')).toEqual([]);
  });

  test('abutting tiles without overlap are compared by the slope between them', async () => {
    const tile = (fromX: number, lift: number) =>
      makeRaster(
        {
          widthPx: 40,
          heightPx: 40,
          cellM: 5,
          name: `tile ${String(fromX)}`,
          frame,
          affine: { x0: fromX, y0: 100, colX: 5, colY: 0, rowX: 0, rowY: -5 },
        },
        (x) => 1000 + lift - 0.4 * x,
      );
    const fit = await read(stationsAlong(coarse, -150, 150), [tile(-200, 0), tile(0, 0)]);
    expect(fit.notes.filter(({ code }) => code === 'GROUND-003')).toEqual([]);
    const off = await read(stationsAlong(coarse, -150, 150), [tile(-200, 0), tile(0, 9)]);
    expect(off.notes.filter(({ code }) => code === 'GROUND-003')).toHaveLength(1);
  });

  test('a slide passes from one raster to the next', async () => {
    const steep = (cellM: number, px: number) =>
      makeRaster({ widthPx: px, heightPx: px, cellM, frame }, (x) => 3000 - (x < 300 ? x : 300) * tan(35));
    const station = [{ alongM: 0, position: frame.toLngLat([0, 0]), bearingDeg: 90 }];
    const alone = await read(station, [steep(20, 200)]);
    const both = await read(station, [steep(20, 200), steep(5, 40)]);
    expect(both.stations[0]!.rasterIndex).toBe(1);
    const [a, b] = [alone.stations[0]!.runOut!.F, both.stations[0]!.runOut!.F];
    expect(b.ending).toBe('stops');
    expect(Math.abs(a.lengthM - b.lengthM)).toBeLessThan(10);
  });
});

describe('along the line', () => {
  test('grade follows the line, beta its angle to the fall line', async () => {
    const raster = makeRaster({ widthPx: 100, heightPx: 100, cellM: 5 }, (x) => 2000 - x * tan(30));
    for (const [bearingDeg, grade, beta] of [
      [90, -30, 0],
      [270, 30, 0],
      [0, 0, 90],
      [45, -22.208, 45],
      [225, 22.208, 45],
      [120, -26.565, 30],
    ] as const) {
      const origin = raster.frame.toLngLat([0, 0]);
      const stations = [0, 5, 10, 15].map((alongM) => ({
        alongM,
        position: destination(origin, { bearingDeg, distanceM: alongM }),
        bearingDeg,
      }));
      const { stations: stood } = await read(stations, [raster]);
      for (const station of stood) {
        expect(station.gradeDeg).toBeCloseTo(grade, 1);
        expect(station.betaDeg).toBeCloseTo(beta, 2);
      }
    }
  });

  test('level ground has no fall line and so no beta', async () => {
    const raster = makeRaster({ widthPx: 40, heightPx: 40, cellM: 5 }, () => 2000);
    const { stations } = await read(stationsAlong(raster, -20, 20), [raster]);
    for (const station of stations) {
      expect(station).toMatchObject({ slopeDeg: 0, aspectDeg: null, betaDeg: null, gradeDeg: 0 });
      expect(station.runOut!.I).toMatchObject({ class: 'gentle', ending: 'stops', lengthM: 0 });
    }
  });
});

describe('reading by blocks', () => {
  const surface = (x: number, y: number): number =>
    2500 + 150 * Math.sin(x / 200) * Math.cos(y / 170) + 20 * Math.sin(x / 31 + y / 45) - 0.2 * x;

  test('gives what reading at once gives, whatever the blocks', async () => {
    const whole = makeRaster({ widthPx: 300, heightPx: 300, cellM: 5, blockPx: 512 }, surface);
    const expected = await read(stationsAlong(whole, -500, 500), [whole]);
    for (const blockPx of [16, 64, 100]) {
      const lazy = makeRaster({ widthPx: 300, heightPx: 300, cellM: 5, blockPx, isLazy: true }, surface);
      expect((await read(stationsAlong(lazy, -500, 500), [lazy])).stations).toEqual(expected.stations);
      // Each block is read once, and only those the line and its slides touch.
      expect(new Set(lazy.loads).size).toBe(lazy.loads.length);
    }
  });

  test('reads only what lies near the line', async () => {
    const lazy = makeRaster(
      { widthPx: 2000, heightPx: 2000, cellM: 5, blockPx: 64, isLazy: true },
      (x) => 2000 - 0.01 * x,
    );
    await read(stationsAlong(lazy, -200, 200), [lazy]);
    expect(lazy.loads.length).toBeLessThan(12);
  });

  test('stops when told to, and says how far it is', async () => {
    const raster = makeRaster({ widthPx: 300, heightPx: 300, cellM: 5 }, surface);
    const shares: number[] = [];
    const stations = stationsAlong(raster, -500, 500, 1);
    await read(stations, [raster], { onProgress: (share) => shares.push(share) });
    expect(shares.at(-1)).toBe(1);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));

    const stop = new AbortController();
    await expect(
      read(stations, [raster], {
        cancel: stop.signal,
        breathe: () => {
          stop.abort();
          return Promise.resolve();
        },
      }),
    ).rejects.toThrow();
  });

  test('a block that cannot be held is said, not waited for', async () => {
    const raster = makeRaster({ widthPx: 300, heightPx: 300, cellM: 5, isLazy: true }, surface);
    const forgetful: Raster = { ...raster, blockInMemory: () => null };
    await expect(read(stationsAlong(raster, 0, 10), [forgetful])).rejects.toMatchObject({
      problem: { code: 'GROUND-001' },
    });
  });

  test('no raster at all leaves every station without ground', async () => {
    const profile = await read(
      stationsAlong(
        makeRaster({ widthPx: 3, heightPx: 3, cellM: 5 }, () => 0),
        0,
        50,
      ),
      [],
    );
    expect(profile.stations.every(({ elevationM, runOut }) => elevationM === null && runOut === null)).toBe(
      true,
    );
  });
});

const turn = (deg: number): number => deg - 360 * Math.round(deg / 360);
