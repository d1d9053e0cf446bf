import fc from 'fast-check';
import { deflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { inflaterInScript } from '../../../../src/core/files/raster/codec/inflate';
import { unLzw } from '../../../../src/core/files/raster/codec/lzw';
import { unpackBits } from '../../../../src/core/files/raster/codec/packbits';
import {
  swapBytes,
  undoDifferences,
  undoFloatPlanes,
} from '../../../../src/core/files/raster/codec/predictor';
import { unZstd } from '../../../../src/core/files/raster/codec/zstd';

/** A plain TIFF LZW writer (TIFF 6.0 p. 58), strings in a map: slow and obviously right. */
function lzw(bytes: Uint8Array): Uint8Array {
  const bits: number[] = [];
  let width = 9;
  let table = new Map<string, number>();
  const emit = (code: number) => {
    for (let bit = width - 1; bit >= 0; bit--) bits.push((code >> bit) & 1);
  };
  const clear = () => {
    emit(256);
    table = new Map(Array.from({ length: 256 }, (_, i) => [String.fromCharCode(i), i]));
    width = 9;
  };
  let next = 258;
  clear();
  let held = '';
  for (const byte of bytes) {
    const longer = held + String.fromCharCode(byte);
    if (table.has(longer)) {
      held = longer;
      continue;
    }
    emit(table.get(held) ?? 0);
    table.set(longer, next++);
    held = String.fromCharCode(byte);
    if (next === 1 << width && width < 12) width++;
    if (next === 4094) {
      clear();
      next = 258;
    }
  }
  if (held !== '') emit(table.get(held) ?? 0);
  // The reader has defined one string more by now, so it may read the closing code a bit wider.
  if (next + 1 >= 1 << width && width < 12) width++;
  emit(257);
  return Uint8Array.from({ length: Math.ceil(bits.length / 8) }, (_, i) =>
    bits.slice(i * 8, i * 8 + 8).reduce((byte, bit, k) => byte | (bit << (7 - k)), 0),
  );
}

const anyBytes = fc.oneof(
  fc.uint8Array({ maxLength: 3000 }),
  fc.array(fc.constantFrom(0, 0, 0, 7), { maxLength: 9000 }).map((list) => Uint8Array.from(list)),
);

describe('LZW', () => {
  test('undoes what a plain writer wrote', () => {
    fc.assert(
      fc.property(anyBytes, (bytes) => {
        expect(unLzw(lzw(bytes), bytes.length)).toEqual(bytes);
      }),
      { numRuns: 60 },
    );
  });

  test('long data, through every code width and several clears', () => {
    const bytes = Uint8Array.from({ length: 120_000 }, (_, i) => (i * i + (i >> 5)) & 255);
    expect(unLzw(lzw(bytes), bytes.length)).toEqual(bytes);
  });

  test('the worked example of the standard (TIFF 6.0 p. 61): 7 7 7 8 8 7 7 6 6', () => {
    const bytes = Uint8Array.of(7, 7, 7, 8, 8, 7, 7, 6, 6);
    const codes = [256, 7, 258, 8, 8, 258, 6, 6, 257];
    const bits = codes.flatMap((code) => Array.from({ length: 9 }, (_, k) => (code >> (8 - k)) & 1));
    const packed = Uint8Array.from({ length: Math.ceil(bits.length / 8) }, (_, i) =>
      bits.slice(i * 8, i * 8 + 8).reduce((byte, bit, k) => byte | (bit << (7 - k)), 0),
    );
    expect(unLzw(packed, 9)).toEqual(bytes);
  });

  test('never gives more than asked for, never hangs, on any bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 400 }), (bytes) => {
        try {
          expect(unLzw(bytes, 500).length).toBeLessThanOrEqual(500);
        } catch (cause) {
          expect(cause).toBeInstanceOf(Error);
        }
      }),
    );
  });

  test('says that data are of the old kind', () =>
    expect(() => unLzw(Uint8Array.of(0, 1, 2), 9)).toThrow(/old kind/));
});

describe('PackBits', () => {
  test("the standard's example (TIFF 6.0 p. 42)", async () => {
    const packed = Uint8Array.of(
      0xfe,
      0xaa,
      0x02,
      0x80,
      0x00,
      0x2a,
      0xfd,
      0xaa,
      0x03,
      0x80,
      0x00,
      0x2a,
      0x22,
      0xf7,
      0xaa,
    );
    const plain = [
      0xaa,
      0xaa,
      0xaa,
      0x80,
      0,
      0x2a,
      0xaa,
      0xaa,
      0xaa,
      0xaa,
      0x80,
      0,
      0x2a,
      0x22,
      ...Array<number>(10).fill(0xaa),
    ];
    expect([...(await unpackBits(packed, 24))]).toEqual(plain);
  });

  test('refuses data that end inside a run or give too much', async () => {
    await expect(unpackBits(Uint8Array.of(5, 1, 2), 100)).rejects.toThrow(/ends inside/);
    await expect(unpackBits(Uint8Array.of(0x81, 1), 100)).rejects.toThrow(/more than 100/);
  });
});

describe('inflate and Zstandard', () => {
  test('script inflates like the platform and keeps to its bound', async () => {
    const plain = Uint8Array.from({ length: 70_000 }, (_, i) => (i >> 3) & 255);
    expect(await inflaterInScript.whole(deflateSync(plain), plain.length)).toEqual(plain);
    await expect(inflaterInScript.whole(deflateSync(plain), plain.length - 1)).rejects.toThrow(/more than/);
    await expect(inflaterInScript.whole(Uint8Array.of(1, 2, 3), 9)).rejects.toThrow();
  });

  // Made by `printf 'firnfirnfirnfirnfirnfirn' | zstd -19 | xxd -i` (zstd 1.5).
  const zstd = Uint8Array.of(
    ...[0x28, 0xb5, 0x2f, 0xfd, 0x04, 0x68, 0x55, 0x00, 0x00, 0x20, 0x66, 0x69],
    ...[0x72, 0x6e, 0x01, 0x00, 0xe8, 0x4b, 0x04, 0x1e, 0xf1, 0xc3, 0xf8],
  );
  test('Zstandard is undone and keeps to its bound', () => {
    expect(new TextDecoder().decode(unZstd(zstd, 24))).toBe('firn'.repeat(6));
    expect(() => unZstd(zstd, 23)).toThrow(/more than/);
    expect(() => unZstd(zstd.subarray(0, 9), 24)).toThrow();
    expect(() => unZstd(Uint8Array.of(1, 2, 3, 4, 5, 6, 7, 8, 9), 16)).toThrow();
  });
});

describe('predictors', () => {
  test('differences are summed, band by band', () => {
    const bytes = new Uint8Array(Int16Array.of(1000, 7, 1, 0, -2, 1, 500, 1, 3, 3, 0, 0).buffer);
    undoDifferences(bytes, 12, 2, 16);
    expect([...new Int16Array(bytes.buffer)]).toEqual([1000, 7, 1001, 7, 999, 8, 500, 1, 503, 4, 503, 4]);
  });

  test('byte planes come back as the floats that went in', () => {
    fc.assert(
      fc.property(fc.array(fc.float({ noNaN: true }), { minLength: 1, maxLength: 40 }), (row) => {
        const plain = new Uint8Array(Float32Array.from(row).buffer);
        const planes = new Uint8Array(plain.length);
        for (let i = 0; i < row.length; i++)
          for (let byte = 0; byte < 4; byte++) planes[byte * row.length + i] = plain[i * 4 + 3 - byte] ?? 0;
        for (let i = planes.length - 1; i > 0; i--)
          planes[i] = ((planes[i] ?? 0) - (planes[i - 1] ?? 0)) & 255;
        undoFloatPlanes(planes, planes.length, 1, 32);
        expect(planes).toEqual(plain);
      }),
    );
  });

  test('bytes are turned round sample by sample', () => {
    const bytes = Uint8Array.of(1, 2, 3, 4, 5, 6, 7, 8);
    swapBytes(bytes, 4);
    expect([...bytes]).toEqual([4, 3, 2, 1, 8, 7, 6, 5]);
  });
});
