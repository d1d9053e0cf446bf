import { constants, deflateSync, inflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import type { ByteSource } from '../../../../src/core/domain/raster';
import { bufferSource } from '../../../../src/core/files/raster/byte-source';
import { inflaterInScript } from '../../../../src/core/files/raster/codec/inflate';
import { openRaster } from '../../../../src/core/files/raster/open';
import { inflater as inflaterInPage } from '../../../../src/worker/inflate';
import { writeTiff, type TiffPlan } from './write-tiff';

const [widthPx, heightPx, rowsPerStrip] = [1100, 1000, 250];
/** Hills between 10 000 and 10 999 of something: feet, or no land at all. */
const hills = Array.from(
  { length: widthPx * heightPx },
  (_, i) => 10_000 + ((Math.imul(i, 0x9e37_79b1) >>> 8) % 1000),
);
const plan: TiffPlan = { widthPx, heightPx, rowsPerStrip, compression: 8, pack: deflate };

function deflate(bytes: Uint8Array): Uint8Array {
  return deflateSync(bytes);
}

function counted(bytes: Uint8Array): ByteSource & { readonly sum: () => number } {
  const source = bufferSource('grid.tif', bytes);
  let sum = 0;
  return {
    ...source,
    read(offset, lengthBytes, cancel) {
      sum += lengthBytes;
      return source.read(offset, lengthBytes, cancel);
    },
    sum: () => sum,
  };
}

describe('a look at a large raster before it is used', () => {
  test.each([
    ['float32', { kind: 'float', bits: 32 }],
    ['float64, big-endian', { kind: 'float', bits: 64, isLittle: false }],
    ['int16', { kind: 'int', bits: 16 }],
    ['int16, big-endian', { kind: 'int', bits: 16, isLittle: false }],
    ['uint32', { kind: 'uint', bits: 32 }],
  ] as const)('%s: its range is told by the beginning of its strips', async (_, sample) => {
    const bytes = writeTiff({ ...plan, ...sample, cells: hills });
    const source = counted(bytes);
    const opened = await openRaster(source);
    expect(opened).toMatchObject({
      ok: false,
      problem: { code: 'UNIT-001', title: 'elevations run from 10000 to 10999, which cannot be metres' },
    });
    expect(source.sum()).toBeLessThan(0.3 * bytes.length);
  });

  test('where the beginning of a strip has no whole row, all of it is read', async () => {
    let state = 1;
    const noise = () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
    const cells = hills.map((_, i) => (i % (rowsPerStrip * widthPx) < widthPx ? 11_000 + noise() : 11_000));
    const bytes = writeTiff({ ...plan, cells });
    const source = counted(bytes);
    expect(await openRaster(source)).toMatchObject({ ok: false, problem: { code: 'UNIT-001' } });
    expect(source.sum()).toBeGreaterThan(bytes.length / 2);
  });

  test('where the beginning of a strip holds no data, the rest of it is looked at', async () => {
    const cells = hills.map((height, i) => (i % (rowsPerStrip * widthPx) < 100 * widthPx ? NaN : height));
    expect(await openRaster(bufferSource('grid.tif', writeTiff({ ...plan, cells })))).toMatchObject({
      problem: { code: 'UNIT-001', title: 'elevations run from 10000 to 10999, which cannot be metres' },
    });
  });

  test('a strip that is damaged at its beginning is refused by its place', async () => {
    const bytes = writeTiff({ ...plan, cells: hills, pack: (strip) => deflate(strip).fill(255, 2, 40) });
    const opened = await openRaster(bufferSource('grid.tif', bytes));
    expect(opened).toMatchObject({ ok: false, problem: { code: 'TIF-015' } });
    if (!opened.ok) expect(opened.problem.place).toMatch(/^strip \d+ at byte \d+$/);
  });
});

/** zlib itself, given the same beginning, is the reference. */
test('data that are cut give what zlib makes of them, in script and in the page', async () => {
  const plain = Uint8Array.from({ length: 300_000 }, (_, i) => (i * i) >> 7);
  const deflated = deflateSync(plain);
  for (const share of [0.001, 0.3, 0.9, 1]) {
    const part = deflated.subarray(0, Math.ceil(share * deflated.length));
    const wanted = Uint8Array.from(inflateSync(part, { finishFlush: constants.Z_SYNC_FLUSH }));
    for (const inflater of [inflaterInScript, inflaterInPage]) {
      expect(await inflater.beginning(part, plain.length)).toEqual(wanted);
      if (share < 1) await expect(inflater.whole(part, plain.length)).rejects.toThrow();
    }
  }
  await expect(inflaterInScript.beginning(deflated, plain.length - 1)).rejects.toThrow(/more than/);
});
