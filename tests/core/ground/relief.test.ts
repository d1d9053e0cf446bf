import { describe, expect, test } from 'vitest';
import type { LngLat } from '../../../src/core/domain/coordinates';
import type { Raster } from '../../../src/core/domain/raster';
import { coarsen } from '../../../src/core/ground/coarsen';
import { cellOfPosition } from '../../../src/core/ground/ground-scale';
import {
  elevationTile,
  levelFor,
  reliefPixels,
  shadeTile,
  slopeTintTile,
} from '../../../src/core/ground/relief';
import { lightOn, slopeTint } from '../../../src/core/ground/relief-colours';
import { pixelKind } from '../../../src/core/ground/relief-sample';
import {
  netIntervals,
  pixelM,
  positionInTile,
  tileNet,
  type MapTile,
} from '../../../src/core/ground/relief-tile';
import { terrainPixels } from '../../../src/core/ground/terrain-tile';
import { geographicFrame, makeRaster, middleOfOcean } from './made-raster';

const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);

/** The tile that holds a position. */
function tileAt([lng, lat]: LngLat, z: number, sizePx = 256): MapTile {
  const tiles = 2 ** z;
  const x = Math.floor(((lng + 180) / 360) * tiles);
  const y = Math.floor(((1 - Math.asinh(Math.tan((lat * Math.PI) / 180)) / Math.PI) / 2) * tiles);
  return { z, x, y, sizePx };
}

/** Small enough to lie inside one tile of zoom 13 (3.4 km here), off its middle. */
const place: LngLat = positionInTile({ ...tileAt(middleOfOcean, 13) }, 128, 128);
const tile = tileAt(place, 13);
const frameAt = (x: number, y: number): LngLat => [place[0] + x / 77_000, place[1] + y / 111_000];
const degreesRaster = (
  z: (x: number, y: number) => number,
  cellM = 10,
  px = 400,
  more: { isLazy?: boolean; name?: string } = {},
) => {
  const [cellLng, cellLat] = [cellM / 77_000, cellM / 111_000];
  return makeRaster(
    {
      widthPx: px,
      heightPx: px,
      cellM,
      frame: geographicFrame,
      affine: {
        x0: place[0] - (px / 2) * cellLng,
        y0: place[1] + (px / 2) * cellLat,
        colX: cellLng,
        colY: 0,
        rowX: 0,
        rowY: -cellLat,
      },
      ...more,
    },
    (lng, lat) => z((lng - place[0]) * 77_000, (lat - place[1]) * 111_000),
  );
};

describe('a tile of the map', () => {
  test('has its corners where the web map has them', () => {
    expect(positionInTile({ z: 0, x: 0, y: 0, sizePx: 256 }, 0, 0)[0]).toBe(-180);
    // EPSG:3857 is square: its northern edge lies at 85.051129 degrees.
    expect(positionInTile({ z: 0, x: 0, y: 0, sizePx: 256 }, 0, 0)[1]).toBeCloseTo(85.0511288, 6);
    expect(positionInTile({ z: 1, x: 1, y: 1, sizePx: 256 }, 0, 0)).toEqual([0, 0]);
    // 156 543.03 m a pixel at zoom 0 on the equator, half of it at 60 degrees.
    expect(pixelM({ z: 10, x: 512, y: 512, sizePx: 256 }) * 2 ** 10).toBeCloseTo(156_543, -1);
  });

  test('is crossed by a net that is off by less than a hundredth of a cell between its nodes', () => {
    const raster = makeRaster({ widthPx: 400, heightPx: 400, cellM: 10 }, () => 0);
    const wide = tileAt(middleOfOcean, 11, 512);
    const { cols, rows } = tileNet(wide, raster);
    const nodes = netIntervals + 1;
    const side = 512 / netIntervals;
    for (const [i, j] of [
      [0, 0],
      [7, 3],
      [15, 15],
    ] as const) {
      const between = (at: Float64Array): number => {
        const k = j * nodes + i;
        return (at[k]! + at[k + 1]! + at[k + nodes]! + at[k + nodes + 1]!) / 4;
      };
      const [col, row] = cellOfPosition(raster, positionInTile(wide, (i + 0.5) * side, (j + 0.5) * side));
      expect(Math.hypot(between(cols) - col, between(rows) - row)).toBeLessThan(0.01);
    }
  });
});

describe('shading', () => {
  test('light comes from the north-west', () => {
    const slope = (aspectDeg: number): number =>
      lightOn(
        -Math.sin((aspectDeg * Math.PI) / 180) * tan(30),
        -Math.cos((aspectDeg * Math.PI) / 180) * tan(30),
      );
    expect(lightOn(0, 0)).toBeCloseTo(Math.SQRT1_2, 9);
    expect(slope(315)).toBeCloseTo(Math.cos((15 * Math.PI) / 180), 9);
    expect(slope(135)).toBeCloseTo(Math.cos((75 * Math.PI) / 180), 9);
    expect(slope(45)).toBeCloseTo(slope(225), 9);
  });

  test('reads gradients in ground metres', async () => {
    const pixels = await reliefPixels({ rasters: [degreesRaster((x, y) => 500 - 0.5 * x + 0.2 * y)], tile });
    const at = 128 * 256 + 128;
    expect(pixels!.kinds[at]).toBe(pixelKind.ground);
    expect(pixels!.gradE[at]).toBeCloseTo(-0.5, 2);
    expect(pixels!.gradN[at]).toBeCloseTo(0.2, 2);
  });

  test('a lit slope is clear of ink, a shaded one is not', async () => {
    const alphaOf = async (x: number, y: number): Promise<readonly number[]> => {
      const rgba = await shadeTile({ rasters: [degreesRaster((e, n) => 500 + x * e + y * n)], tile });
      return [...rgba!.slice(4 * (128 * 256 + 128), 4 * (128 * 256 + 128) + 4)];
    };
    const [redLit] = await alphaOf(0.3, -0.3);
    const [redShaded, , , inkShaded] = await alphaOf(-0.3, 0.3);
    expect(redLit).toBeGreaterThan(200);
    expect(redShaded).toBeLessThan(100);
    expect(inkShaded).toBeGreaterThan(60);
  });

  test('holes are hatched, edges too, and the rest is clear', async () => {
    const raster = degreesRaster((x, y) => (Math.hypot(x, y) < 300 ? NaN : 500 - 0.1 * x), 10, 200);
    const request = { rasters: [raster], tile };
    const pixels = (await reliefPixels(request))!;
    const rgba = (await shadeTile(request))!;
    const count = (kind: number): number => pixels.kinds.filter((at) => at === kind).length;
    // A hole of 300 m in pixels of 13.3 m, a border of 10 pixels about 150 of ground.
    expect(count(pixelKind.hole)).toBeGreaterThan(0.9 * Math.PI * (300 / pixelM(tile)) ** 2);
    expect(count(pixelKind.hole)).toBeLessThan(1.1 * Math.PI * (300 / pixelM(tile)) ** 2);
    expect(count(pixelKind.edge)).toBeGreaterThan(4 * 10 * 140);
    const places = [...pixels.kinds.keys()];
    const alphas = (kind: number): Set<number> =>
      new Set(places.filter((i) => pixels.kinds[i] === kind).map((i) => rgba[4 * i + 3]!));
    expect([...alphas(pixelKind.nothing)]).toEqual([0]);
    // Lines, and a tone between them.
    for (const kind of [pixelKind.hole, pixelKind.edge]) {
      expect(alphas(kind).size).toBe(2);
      expect(Math.min(...alphas(kind))).toBeGreaterThan(0);
    }
  });

  test('a finer raster lies over a coarser one, and its holes show that', async () => {
    const fine = degreesRaster((x, y) => (Math.hypot(x, y) < 100 ? NaN : 900), 5, 120);
    const coarse = degreesRaster(() => 500, 20, 200);
    const z = (await elevationTile({ rasters: [coarse, fine], tile }))!;
    const at = (x: number, y: number): number => {
      const [lng, lat] = frameAt(x, y);
      const n = 2 ** tile.z;
      const px = Math.floor((((lng + 180) / 360) * n - tile.x) * 256);
      const row = ((1 - Math.asinh(Math.tan((lat * Math.PI) / 180)) / Math.PI) / 2) * n - tile.y;
      return z[Math.floor(row * 256) * 256 + px]!;
    };
    expect(at(0, 0)).toBe(500);
    expect(at(200, 0)).toBe(900);
    expect(at(600, 0)).toBe(500);
  });

  test('nothing where no raster reaches, nor far out', async () => {
    const raster = degreesRaster(() => 500);
    expect(await shadeTile({ rasters: [raster], tile: { ...tile, x: tile.x + 5 } })).toBeNull();
    expect(await shadeTile({ rasters: [raster], tile: tileAt(place, 3) })).toBeNull();
    expect(await shadeTile({ rasters: [], tile })).toBeNull();
  });

  test('a raster without coarser levels is shown whole by one made of its means', async () => {
    const raster = degreesRaster((x, y) => (Math.abs(y) < 200 ? NaN : 500 - 0.2 * x), 2, 2000);
    const out = tileAt(place, 11);
    expect(await reliefPixels({ rasters: [raster], tile: out })).toBeNull();
    const shares: number[] = [];
    const coarse = await coarsen(raster, { factor: 8, onProgress: (share) => shares.push(share) });
    expect(shares.at(-1)).toBe(1);
    expect([coarse.widthPx, coarse.heightPx, coarse.cellM]).toEqual([250, 250, 16]);
    let asked = 0;
    const coarser = (): Promise<Raster> => {
      asked++;
      return Promise.resolve(coarse);
    };
    const pixels = (await reliefPixels({ rasters: [raster], tile: out, coarser }))!;
    const grounds = [...pixels.kinds.keys()].filter((i) => pixels.kinds[i] === pixelKind.ground);
    expect(grounds.length).toBeGreaterThan(1500);
    expect(pixels.kinds).toContain(pixelKind.hole);
    for (const i of grounds.slice(200, 210)) expect(pixels.gradE[i]).toBeCloseTo(-0.2, 2);
    // Where the raster does not reach, nothing is read for it.
    expect(await reliefPixels({ rasters: [raster], tile: { ...out, x: out.x + 3 }, coarser })).toBeNull();
    expect(asked).toBe(1);
  });

  test('stops when told to', async () => {
    const stop = new AbortController();
    const lazy = degreesRaster(() => 500, 10, 400, { isLazy: true });
    const slow: Raster = {
      ...lazy,
      loadBlock: (col, row, cancel) => {
        stop.abort();
        cancel?.throwIfAborted();
        return lazy.loadBlock(col, row);
      },
    };
    await expect(shadeTile({ rasters: [slow], tile, cancel: stop.signal })).rejects.toThrow();
  });
});

describe('elevations for contours', () => {
  test('are those of the ground at the pixel centres', async () => {
    const z = (x: number, y: number): number => 500 + 40 * Math.sin(x / 300) * Math.cos(y / 250);
    const grid = (await elevationTile({ rasters: [degreesRaster(z, 10, 400)], tile }))!;
    for (const [px, py] of [
      [30, 40],
      [128, 128],
      [200, 90],
    ] as const) {
      const [lng, lat] = positionInTile(tile, px + 0.5, py + 0.5);
      const expected = z((lng - place[0]) * 77_000, (lat - place[1]) * 111_000);
      expect(Math.abs(grid[py * 256 + px]! - expected)).toBeLessThan(0.1);
    }
  });

  test('are NaN where there are none', async () => {
    const grid = (await elevationTile({
      rasters: [degreesRaster((x) => (x < 0 ? NaN : 500), 10, 400)],
      tile,
    }))!;
    expect(grid[128 * 256 + 20]).toBeNaN();
    expect(grid[128 * 256 + 200]).toBe(500);
  });
});

describe('slope tint', () => {
  test('begins where slopes begin to matter and darkens all the way', () => {
    expect(slopeTint(10)[3]).toBe(0);
    expect(slopeTint(25)[3]).toBe(1);
    const lightness = [15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 80].map((deg) => {
      const [r, g, b] = slopeTint(deg);
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    });
    for (let i = 1; i < lightness.length - 1; i++) expect(lightness[i]).toBeLessThan(lightness[i - 1]!);
    expect(slopeTint(60).slice(0, 3)).toEqual(slopeTint(80).slice(0, 3));
  });

  test('shows the slope of the cells, not of coarser levels', async () => {
    // Ridges of 45 degrees, 40 m apart, which every coarser level has lost.
    const fine = degreesRaster((x) => 500 + Math.abs((((x % 40) + 40) % 40) - 20), 4, 500);
    const flat = degreesRaster(() => 500, 16, 125);
    const raster: Raster = { ...fine, overviews: [flat] };
    const out = tileAt(place, 12);
    expect(levelFor(raster, pixelM(out))).toBe(flat);
    const rgba = (await slopeTintTile({ rasters: [raster], tile: out }))!;
    const middle = ((y) => y * 256 + Math.floor(((((place[0] + 180) / 360) * 2 ** 12) % 1) * 256))(
      Math.floor((((1 - Math.asinh(tan(place[1])) / Math.PI) / 2) * 2 ** 12 - out.y) * 256),
    );
    const [red, green, blue] = slopeTint(45);
    expect(Math.abs(rgba[4 * middle]! - red)).toBeLessThan(12);
    expect(Math.abs(rgba[4 * middle + 1]! - green)).toBeLessThan(12);
    expect(Math.abs(rgba[4 * middle + 2]! - blue)).toBeLessThan(12);
  });

  test('is clear where no slope is known, and not drawn from very far out', async () => {
    const raster = degreesRaster((x) => (x < 0 ? NaN : 500 - x), 10, 400);
    const rgba = (await slopeTintTile({ rasters: [raster], tile }))!;
    expect(rgba[4 * (128 * 256 + 20) + 3]).toBe(0);
    expect(rgba[4 * (128 * 256 + 200) + 3]).toBe(255);
    expect(await slopeTintTile({ rasters: [raster], tile: tileAt(place, 9) })).toBeNull();
  });
});

describe('elevations for the 3D view', () => {
  const decode = (rgba: Uint8ClampedArray, i: number): number =>
    rgba[4 * i]! * 256 + rgba[4 * i + 1]! + rgba[4 * i + 2]! / 256 - 32768;

  test('come back to 4 mm', () => {
    const z = Float32Array.from([0, -12.34, 4321.987, 8848]);
    const rgba = terrainPixels(z, 2);
    z.forEach((value, i) => {
      expect(Math.abs(decode(rgba, i) - value)).toBeLessThan(0.004);
    });
  });

  test('holes take the height beside them, so that no wall stands around them', () => {
    const _ = NaN;
    const rgba = terrainPixels(Float32Array.from([_, _, _, _, 10, _, _, 40, _, _, _, _, 70, 70, 70, 70]), 4);
    expect([...Array(16).keys()].map((i) => decode(rgba, i))).toEqual([
      10, 10, 40, 40, 10, 10, 40, 40, 10, 10, 40, 40, 70, 70, 70, 70,
    ]);
  });
});
