import { deflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { cellCentre, ProblemError } from '../../../../src/core/domain/raster';
import { toMetres } from '../../../../src/core/files/raster/cell-meaning';
import { bufferSource } from '../../../../src/core/files/raster/byte-source';
import { RangeCache } from '../../../../src/core/files/raster/range-cache';
import { remoteSource } from '../../../../src/core/files/raster/remote-source';
import { madeServer, servedBytes, servedUrl } from './made-server';
import { openRaster } from '../../../../src/core/files/raster/open';
import { settle } from '../../../../src/core/files/raster/crs/settle';
import { systemOfEpsg } from '../../../../src/core/files/raster/crs/system';
import { RasterNotes } from '../../../../src/core/files/raster/raster-notes';
import type { Inflater } from '../../../../src/core/files/raster/codec/inflate';
import type { ChunkMap } from '../../../../src/core/files/raster/tiff/chunk-map';
import { PictureCells } from '../../../../src/core/files/raster/tiff/picture-cells';
import { lercBlob } from './lerc-blob';
import { opened, readWhole } from './read-whole';
import { writeTiff } from './write-tiff';

describe('stored numbers', () => {
  const meaning = { nodata: null, scale: 0.1, offset: 0, metresPerUnit: 1 };

  test('in decimetres a number below -9999 would be a land too deep, one above 9999 is a hill', () => {
    const cells = Float64Array.of(-12_000, 12_000, -4000, -32_768);
    expect(toMetres(cells, meaning)).toEqual({ sentinels: 1, implausible: 1 });
    expect([...cells]).toEqual([NaN, 1200, -400, NaN]);
  });

  test('with an offset of its own a number below -9999 that marks nothing is land', () => {
    const cells = Float64Array.of(-12_000, -9999);
    expect(toMetres(cells, { ...meaning, offset: 3000 })).toEqual({ sentinels: 1, implausible: 0 });
    expect([...cells]).toEqual([1800, NaN]);
  });

  test.each([100, 9000, 9000.0001, -500.00001, -9999])(
    'metres as they are stay so, all but the mark for missing cells: %d',
    (mark) => {
      const cells = Float64Array.of(99, mark, 8000, Math.fround(mark), 9001, -501);
      expect(toMetres(cells, { nodata: mark, scale: 1, offset: 0, metresPerUnit: 1 })).toEqual({
        sentinels: 0,
        implausible: 2,
      });
      expect([...cells]).toEqual([99, NaN, 8000, NaN, NaN, NaN]);
    },
  );
});

describe('ESRI ASCII grids', () => {
  test('in degrees they are placed about their own middle', async () => {
    const text =
      'ncols 3\nnrows 2\nxllcorner 7\nyllcorner 46\ncellsize 0.001\n1000 1001 1002\n1010 1011 1012\n';
    const raster = await opened(new TextEncoder().encode(text), { crs: 'EPSG:4326' }, 'a.asc');
    const [lng, lat] = raster.frame.toLngLat(cellCentre(raster.affine, [0, 0]));
    expect([lng, lat]).toEqual([expect.closeTo(7.0005, 9), expect.closeTo(46.0015, 9)]);
  });

  test('more text than is read at once is refused, with the way out', async () => {
    const head = new TextEncoder().encode('ncols 3\nnrows 2\nxllcorner 7\nyllcorner 46\ncellsize 1\n');
    const read = (_: number, lengthBytes: number) => {
      const bytes = new Uint8Array(lengthBytes).fill(0x20);
      bytes.set(head);
      return Promise.resolve(bytes);
    };
    const source = { name: 'a.asc', sizeBytes: 128 * 2 ** 20 + 1, isRemote: true, read };
    expect(await openRaster(source, { crs: 'EPSG:4326' })).toMatchObject({
      problem: { code: 'TIF-005', remedy: expect.stringContaining('gdal_translate') as string },
    });
  });
});

describe('rasters afar', () => {
  test('of bytes that came without being asked for only whole pieces are kept', async () => {
    const asked: number[] = [];
    const cache = new RangeCache(servedBytes.length, (offset, lengthBytes) => {
      asked.push(offset);
      return Promise.resolve(servedBytes.slice(offset, offset + lengthBytes));
    });
    cache.put(0, servedBytes.slice(0, 16_384 + 100));
    expect(await cache.read(0, 100)).toEqual(servedBytes.slice(0, 100));
    expect(asked).toEqual([]);
    expect(await cache.read(16_384, 100)).toEqual(servedBytes.slice(16_384, 16_484));
    expect(asked).toEqual([16_384]);
  });

  test('a length that nobody tells is a refusal, whatever the server does when it is asked', async () => {
    const whole = madeServer({ hidesRange: true });
    const answering = (status: number, length: string | null) =>
      remoteSource(servedUrl, async (url, init) => {
        const answer = await whole.fetch(url, init);
        if (init.method !== 'HEAD') return answer;
        return { ...answer, status, headers: { get: () => length } };
      });
    for (const [status, length] of [
      [404, '300000'],
      [200, null],
      [200, '0'],
      [200, 'many'],
    ] as const)
      // prettier-ignore
      expect(await answering(status, length)).toMatchObject({ ok: false, problem: { code: 'SRC-002' } });
    const silent = await remoteSource(servedUrl, (url, init) =>
      init.method === 'HEAD' ? Promise.reject(new TypeError('Failed to fetch')) : whole.fetch(url, init),
    );
    expect(silent).toMatchObject({
      ok: false,
      problem: { title: expect.stringContaining('does not say how long') as string },
    });
  });

  test('a fault of ours is no problem of the user’s', async () => {
    const broken = { status: 206, headers: null, arrayBuffer: () => Promise.resolve(new ArrayBuffer(0)) };
    await expect(remoteSource(servedUrl, () => Promise.resolve(broken as never))).rejects.toThrow(TypeError);
  });

  test('an address of nothing is refused by its own name', async () => {
    const opened = await remoteSource('https://', madeServer().fetch);
    expect(opened).toMatchObject({ ok: false, problem: { subject: 'https://' } });
  });
});

test('a file that says from where its heights count, but not in what unit', async () => {
  // GeoKey 4096 with 5030, the WGS 84 ellipsoid among the vertical systems of GeoTIFF 1.0 (6.3.4.1), and no key for the unit.
  const keys = [1, 1, 0, 4, 1024, 0, 1, 1, 1025, 0, 1, 1, 3072, 0, 1, 32632, 4096, 0, 1, 5030];
  const raster = await opened(writeTiff({ fields: [[34735, 3, keys]] }));
  expect(raster.heightsFrom).toBe('ellipsoid');
  expect(raster.notes.find(({ code }) => code === 'UNIT-101')?.text).toBe(
    'The file does not say in what its elevations are measured: taken as metres.',
  );
});

function unable(reason: unknown): Inflater {
  // eslint-disable-next-line @typescript-eslint/prefer-promise-reject-errors -- what a decoder throws is not ours
  const whole = () => Promise.reject(reason);
  return { whole, beginning: whole };
}

describe('tiles that cannot be undone', () => {
  const deflated = writeTiff({ compression: 8, pack: (plain) => new Uint8Array(deflateSync(plain)) });
  const openWith = (reason: unknown) =>
    openRaster(bufferSource('grid.tif', deflated), {
      inflater: unable(reason),
    });

  test('whatever a decoder throws is told with the place', async () => {
    expect(await openWith('no memory')).toMatchObject({
      problem: { code: 'TIF-015', title: 'cannot be decoded (no memory)' },
    });
  });

  test('a problem of its own stays what it is', async () => {
    const problem = { code: 'X-1', subject: 'x', place: null, title: 'gone', remedy: 'Wait.' };
    expect(await openWith(new ProblemError(problem))).toMatchObject({ problem: { code: 'X-1' } });
  });
});

describe('LERC in planes', () => {
  test('each band has its own blob, and the first is read', async () => {
    const values = (first: number) => Array.from({ length: 12 }, (_, i) => first + i);
    const tiff = writeTiff({
      cells: [...values(1000), ...values(5000)],
      compression: 34887,
      pack: (plain) => lercBlob({ z: new DataView(plain.buffer, plain.byteOffset).getFloat32(0, true) }),
      fields: [
        [258, 3, [32, 32]],
        [277, 3, [2]],
        [284, 3, [2]],
        [339, 3, [3, 3]],
        [50674, 4, [4, 0]],
      ],
    });
    expect([...(await readWhole(await opened(tiff)))]).toEqual(Array.from({ length: 12 }, () => 1000));
  });
});

test('a system without a way to WGS 84 at that place is refused', async () => {
  const system = (await systemOfEpsg(2056))!;
  const affine = { x0: 2_600_000, y0: 1_200_000, colX: 10, colY: 0, rowX: 0, rowY: -10 };
  const grid = { name: 'grid.tif', affine, widthPx: 10, heightPx: 10 };
  expect(settle(system, grid, new RasterNotes('grid.tif')).shift).not.toEqual([]);
  expect(() => settle({ ...system, shifts: [] }, grid, new RasterNotes('grid.tif'))).toThrow(
    /no way to WGS 84 is known here for that system at 46\.\d\d° N 7\.\d\d° E/,
  );
});

test('a tile that a sparse file does not hold is asked for once', async () => {
  let asked = 0;
  const picture = { chunkWidthPx: 2, chunkHeightPx: 2, widthPx: 4, heightPx: 4, chunksAcross: 2 };
  const index = {
    ...{ picture, reader: { name: 'sparse.tif' }, rowsOf: () => 2 },
    span: () => Promise.resolve((asked++, null)),
  } as unknown as ChunkMap;
  const cells = new PictureCells(index, unable(new Error('none')), false);
  const window = { col: 2, row: 2, widthPx: 2, heightPx: 2 };
  expect([await cells.tile(window), await cells.tile(window)]).toEqual([null, null]);
  expect(asked).toBe(1);
});
