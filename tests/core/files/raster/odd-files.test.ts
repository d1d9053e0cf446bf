import { deflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { ProblemError, type ByteSource } from '../../../../src/core/domain/raster';
import { bufferSource } from '../../../../src/core/files/raster/byte-source';
import { unLzw } from '../../../../src/core/files/raster/codec/lzw';
import { unpackBits } from '../../../../src/core/files/raster/codec/packbits';
import { metresOfUnitText } from '../../../../src/core/files/raster/elevation-unit';
import { openRaster, type RasterOptions } from '../../../../src/core/files/raster/open';
import { RasterNotes } from '../../../../src/core/files/raster/raster-notes';
import { rank } from '../../../../src/core/files/raster/survey';
import { FieldValues } from '../../../../src/core/files/raster/tiff/field-values';
import { sortPictures } from '../../../../src/core/files/raster/tiff/sort-pictures';
import { lercBlob } from './lerc-blob';
import { opened, readWhole, refused } from './read-whole';
import { geoKeys, writeTiff, type FieldText, type TiffPlan } from './write-tiff';

const codes = ({ notes }: { readonly notes: readonly { readonly code: string }[] }) =>
  notes.map(({ code }) => code);
const hill = Array.from({ length: 12 }, (_, i) => 1000 + i);

/** One frame, one block, nothing compressed (RFC 8878, 3.1.1). */
function zstdFrame(bytes: Uint8Array): Uint8Array {
  const header = (bytes.length << 3) | 1;
  return Uint8Array.of(0x28, 0xb5, 0x2f, 0xfd, 0x20, bytes.length, header & 255, header >> 8, 0, ...bytes);
}

const lerc = (pack: () => Uint8Array, addition?: number): TiffPlan => ({
  compression: 34887,
  pack,
  ...(addition === undefined ? {} : { fields: [[50674, 4, [4, addition]]] }),
});

describe('LERC', () => {
  test('a constant, plain and in a ZSTD frame', async () => {
    for (const plan of [lerc(() => lercBlob()), lerc(() => zstdFrame(lercBlob()), 2)])
      expect([...(await readWhole(await opened(writeTiff(plan))))]).toEqual(hill.map(() => 1234));
  });

  test('cells that its own mask leaves out are holes', async () => {
    expect(await refused(writeTiff(lerc(() => lercBlob({ known: 0 }))))).toMatchObject({ code: 'TIF-014' });
  });

  test.each([
    ['no header', () => new Uint8Array(60), /does not start with a LERC 2 header/],
    ['too short for one', () => lercBlob().subarray(0, 20), /does not start with a LERC 2 header/],
    ['of another size', () => lercBlob({ cols: 5 }), /holds 5 x 3 x 1 cells, not 4 x 3 x 1/],
    ['of a later edition and another size', () => lercBlob({ version: 3 }), /not 4 x 3 x 1/],
    ['with more values a cell', () => lercBlob({ version: 4 }), /not 4 x 3 x 1/],
  ])('%s: refused', async (_, pack, title) => {
    const problem = await refused(writeTiff(lerc(pack)));
    expect(problem.code).toBe('TIF-015');
    expect(problem.title).toMatch(title);
  });

  test('with a predictor, where it has no meaning: refused', async () => {
    expect(await refused(writeTiff({ compression: 34887, predictor: 2 }))).toMatchObject({ code: 'TIF-009' });
  });
});

describe('codings', () => {
  test('LZW that goes on after the strip is full, or would fill it over', () => {
    // Codes of 9 bits: clear, 65, 66, 258 (the string 65 66), end.
    const packed = bits9(256, 65, 66, 258, 257);
    expect([...unLzw(packed, 4)]).toEqual([65, 66, 65, 66]);
    expect([...unLzw(packed, 2)]).toEqual([65, 66]);
    expect(() => unLzw(packed, 3)).toThrow(/more than 3 bytes/);
  });

  test('PackBits passes over the byte that means nothing', async () => {
    expect([...(await unpackBits(Uint8Array.of(128, 0, 7, 128), 8))]).toEqual([7]);
  });

  test.each([
    ['8 bits', 'uint', 8, { elevationUnit: 'm' }],
    ['8 bits and a sign', 'int', 8, { elevationUnit: 'm' }],
    ['32 bits', 'int', 32, {}],
    ['64 bits', 'float', 64, {}],
  ] as const)('predictor 2 on %s', async (_, kind, bits, options: RasterOptions) => {
    const cells = bits === 64 ? hill : [10, 1, 1, 1, 20, 1, 1, 1, 30, 1, 1, 1];
    const plan: TiffPlan = {
      kind,
      bits,
      predictor: 2,
      compression: 8,
      cells,
      pack: (bytes) => new Uint8Array(deflateSync(bits === 64 ? differences64(bytes, 4) : bytes)),
    };
    const expected = bits === 64 ? hill : [10, 11, 12, 13, 20, 21, 22, 23, 30, 31, 32, 33];
    expect([...(await readWhole(await opened(writeTiff(plan), options)))]).toEqual(expected);
  });

  test('an inflater may hand out bytes from the middle of its own', async () => {
    const inflate = (_: Uint8Array, maxBytes: number) => {
      const cells = new Uint8Array(maxBytes + 3);
      cells.set(new Uint8Array(Float32Array.from(hill).buffer), 3);
      return Promise.resolve(cells.subarray(3));
    };
    const raster = await opened(writeTiff({ compression: 8 }), {
      inflater: { whole: inflate, beginning: inflate },
    });
    expect([...(await readWhole(raster))]).toEqual(hill);
  });

  test('an inflater that fails without an Error is told of all the same', async () => {
    const inflate = async (): Promise<never> => {
      await Promise.resolve();
      throw 'out of order' as unknown;
    };
    expect(
      (await refused(writeTiff({ compression: 8 }), { inflater: { whole: inflate, beginning: inflate } }))
        .title,
    ).toMatch(/out of order/);
  });

  test('a strip stored far larger than its cells', async () => {
    const problem = await refused(writeTiff({ compression: 8, pack: () => new Uint8Array(70_000) }));
    expect(problem).toMatchObject({
      code: 'TIF-005',
      title: expect.stringMatching(/70000 stored bytes for 48/) as string,
    });
  });
});

function bits9(...words: number[]): Uint8Array {
  const bits = words
    .map((word) => word.toString(2).padStart(9, '0'))
    .join('')
    .padEnd(8 * Math.ceil((words.length * 9) / 8), '0');
  return Uint8Array.from(bits.match(/.{8}/g) ?? [], (byte) => parseInt(byte, 2));
}

/** Each word less the one before it in its row. */
function differences64(bytes: Uint8Array, perRow: number): Uint8Array {
  const words = new BigUint64Array(bytes.slice().buffer);
  for (let i = words.length - 1; i > 0; i--) if (i % perRow > 0) words[i]! -= words[i - 1]!;
  return new Uint8Array(words.buffer);
}

describe('directories', () => {
  test('more than 64 of them', async () => {
    const more = Array.from({ length: 70 }, (): FieldText[] => [[254, 4, [0]]]);
    expect((await refused(writeTiff({ more }))).title).toMatch(/more than 64 directories/);
  });

  test('none at all', async () => {
    const bytes = writeTiff();
    new DataView(bytes.buffer).setUint32(4, 0, true);
    expect(await refused(bytes)).toMatchObject({ code: 'TIF-003', title: 'has no image directory' });
  });

  test('a BigTIFF whose offsets are not 8 bytes wide', async () => {
    const bytes = writeTiff({ isBig: true });
    new DataView(bytes.buffer).setUint16(4, 4, true);
    expect((await refused(bytes)).title).toMatch(/not 8 bytes wide/);
  });

  test('a tag too long to be held', async () => {
    const long = Array.from({ length: 600_000 }, () => 0);
    expect((await refused(writeTiff({ fields: [[34735, 3, long]] }))).title).toMatch(
      /holds 1200000 bytes, more than/,
    );
  });

  test('numbers of every type the format has', async () => {
    const types = { 5: [3, 2], 8: [65535], 9: [2 ** 32 - 1], 10: [2 ** 32 - 3, 2], 11: [1.5] };
    for (const [type, stored] of Object.entries(types)) {
      const bytes = new Uint8Array(16);
      const view = new DataView(bytes.buffer);
      if (type === '11') view.setFloat32(0, stored[0]!, true);
      else if (type === '8') view.setUint16(0, stored[0]!, true);
      else stored.forEach((value, i) => view.setUint32(4 * i, value, true));
      const field = { tag: 1, type: Number(type), count: 1, offset: 0 };
      const reader = {
        bytes: (offset: number, length: number) => Promise.resolve(bytes.subarray(offset, offset + length)),
      };
      const values = new FieldValues(
        reader as never,
        { isLittleEndian: true, isBig: false },
        { offset: 0, fields: new Map([[1, field]]) },
      );
      expect(await values.numbers(1)).toEqual([{ 5: 1.5, 8: -1, 9: -1, 10: -1.5, 11: 1.5 }[type]]);
    }
  });

  test('what goes wrong in us while an overview is read is not taken for a bad overview', async () => {
    const bytes = writeTiff();
    const fault = new TypeError('ours');
    const broken = {
      reader: { name: 'a.tif' },
      number: (tag: number) => (tag === 254 ? Promise.resolve(1) : Promise.reject(fault)),
    };
    const first = await fieldsOf(bytes);
    await expect(sortPictures(first, [broken as never], new RasterNotes('a.tif'))).rejects.toBe(fault);
  });
});

async function fieldsOf(bytes: Uint8Array): Promise<FieldValues> {
  const { GuardedReader } = await import('../../../../src/core/files/raster/guarded-reader');
  const { readDirectories } = await import('../../../../src/core/files/raster/tiff/directory');
  const reader = new GuardedReader(bufferSource('a.tif', bytes));
  const { format, list } = await readDirectories(reader);
  return new FieldValues(reader, format, list[0]!);
}

describe('one strip for the whole file, read in pieces', () => {
  const strip = (heightPx: number): TiffPlan => ({
    widthPx: 1000,
    heightPx,
    cells: Array.from({ length: 1000 * heightPx }, (_, i) => 1000 + Math.floor(i / 1000)),
  });

  test.each([130, 131])('%d rows', async (heightPx) => {
    const raster = await opened(writeTiff(strip(heightPx)));
    const cells = await readWhole(raster);
    expect(cells.every((z, i) => z === 1000 + Math.floor(i / 1000))).toBe(true);
  });

  test('that says it is shorter than its rows need', async () => {
    const plan = { ...strip(130), fields: [[279, 4, [400_000]]] } satisfies TiffPlan;
    expect((await refused(writeTiff(plan))).title).toMatch(/holds 400000 bytes, less than its 130 rows need/);
  });
});

describe('what the numbers mean', () => {
  test.each([
    ['cm', 0.01], ['Centimeters', 0.01], ['dm', 0.1], ['millimetres', 0.001], ['us_survey_foot', 1200 / 3937], ['ftUS', 1200 / 3937],
    ['feet', 0.3048], ['metre', 1], ['fathom', null],
  ] as const)('%s', (text, metres) => expect(metresOfUnitText(text)).toBe(metres)); // prettier-ignore

  test.each([
    ['inf', Infinity],
    ['-1.#INF00', -Infinity],
  ] as const)('missing cells marked with %s', async (text, value) => {
    const cells = hill.map((z, i) => (i === 5 ? value : z));
    const raster = await opened(writeTiff({ cells, fields: [[42113, 2, `${text}\0`]] }));
    expect([...(await readWhole(raster))].map(Number.isNaN)).toEqual(hill.map((_z, i) => i === 5));
  });

  test.each([
    ['no such band', '<GDALMetadata><Item name="SCALE" sample="x" role="scale">1</Item></GDALMetadata>'],
    ['an empty scale', '<GDALMetadata><Item name="SCALE" sample="0" role="scale"></Item></GDALMetadata>'],
    ['a scale without a name', '<GDALMetadata><Item sample="0" role="scale"> </Item></GDALMetadata>'],
  ])('metadata with %s: refused', async (_, xml) => {
    expect(await refused(writeTiff({ fields: [[42112, 2, `${xml}\0`]] }))).toMatchObject({ code: 'TIF-016' });
  });

  test('the unit said by hand goes before the file’s own, and that is said', async () => {
    const fields = [geoKeys([1024, 1], [3072, 32632], [4099, 9002])];
    const raster = await opened(writeTiff({ fields }), { elevationUnit: 'm' });
    expect(codes(raster)).toContain('UNIT-102');
    expect((await readWhole(raster))[0]).toBe(1000);
  });

  test('a vertical system with its unit in brackets', async () => {
    const text = 'WGS 84 / UTM zone 32N + some height (ft)|';
    const fields: FieldText[] = [
      [34735, 3, [1, 1, 0, 3, 1024, 0, 1, 1, 3072, 0, 1, 32632, 1026, 34737, text.length, 0]],
      [34737, 2, `${text}\0`],
    ];
    expect((await readWhole(await opened(writeTiff({ fields }))))[0]).toBeCloseTo(304.8, 9);
  });

  test('a map in feet: the unit of heights is asked for', async () => {
    const fields: FieldText[] = [
      geoKeys([1024, 1], [3072, 2226]),
      [33922, 12, [0, 0, 0, 6_700_000, 2_200_000, 0]],
    ];
    const problem = await refused(writeTiff({ fields }));
    expect(problem).toMatchObject({ code: 'UNIT-001', question: { kind: 'elevation-unit' } });
    expect(problem.title).toMatch(/its map is in feet/);
  });

  test('no cells at all have no rank', () => {
    expect(
      rank(
        {
          cells: 0,
          missing: 0,
          sentinels: 0,
          isWhole: true,
          sorted: new Float64Array(0),
          isWholeNumbers: false,
        },
        0.5,
      ),
    ).toBeNaN();
  });

  test('a file nobody knows', async () => {
    expect((await refused(Uint8Array.of(1, 2, 3, 4, 5, 6, 7, 8))).title).toMatch(
      /looks like nothing known here/,
    );
  });
});

describe('reading', () => {
  test('a buffer gives what it has and no more', async () => {
    const source = bufferSource('a', Uint8Array.of(1, 2, 3));
    expect([...(await source.read(1, 2))]).toEqual([2, 3]);
    await expect(source.read(2, 2)).rejects.toThrow('a ends at byte 3');
    await expect(source.read(-1, 2)).rejects.toThrow();
    await expect(source.read(0, 1, AbortSignal.abort())).rejects.toThrow('cancelled');
  });

  test('a block that is not there, and one that two ask for at a time', async () => {
    const raster = await opened(writeTiff());
    await expect(raster.loadBlock(1, 0)).rejects.toThrow(RangeError);
    await expect(raster.loadBlock(0, -1)).rejects.toThrow(RangeError);
    const [a, b] = [raster.loadBlock(0, 0), raster.loadBlock(0, 0)];
    expect(a === b || (await Promise.all([a, b])).length === 2).toBe(true);
    await a;
    expect(raster.blockInMemory(0, 0)).not.toBeNull();
  });

  test('who may stop a reading has it alone', async () => {
    const raster = await opened(writeTiff());
    const stop = new AbortController();
    await raster.loadBlock(0, 0, stop.signal);
    expect(raster.blockInMemory(0, 0)).not.toBeNull();
    const other = await opened(
      writeTiff({
        widthPx: 1100,
        heightPx: 1100,
        rowsPerStrip: 11,
        cells: Array.from({ length: 1_210_000 }, () => 1500),
      }),
    );
    stop.abort();
    await expect(other.loadBlock(4, 4, stop.signal)).rejects.toThrow();
    expect(other.blockInMemory(4, 4)).toBeNull();
  });

  test('the checksum is asked for small local files only', async () => {
    const digest = (bytes: Uint8Array) => Promise.resolve(`${bytes.length} bytes`);
    const bytes = writeTiff();
    expect((await opened(bytes, { digest })).checksum).toBe(`${bytes.length} bytes`);
    const remote = await openRaster({ ...bufferSource('a.tif', bytes), isRemote: true }, { digest });
    expect(remote.ok && remote.value.checksum).toBeNull();
    const padded = new Uint8Array(2 ** 16);
    padded.set(bytes);
    const large = await openRaster({ ...bufferSource('a.tif', padded), sizeBytes: 2 ** 27 }, { digest });
    expect(large.ok && large.value.checksum).toBeNull();
  });

  test('a fault of ours is not put down to the file', async () => {
    const fault = new TypeError('ours');
    await expect(
      openRaster(bufferSource('a.tif', writeTiff()), { digest: () => Promise.reject(fault) }),
    ).rejects.toBe(fault);
  });

  test('what a source refuses by itself is told as it is; what it throws otherwise by its words', async () => {
    const source = (cause: unknown): ByteSource => ({
      name: 'a.tif',
      sizeBytes: 1000,
      async read() {
        await Promise.resolve();
        throw cause;
      },
    });
    const problem = { code: 'SRC-003', subject: 'a.tif', place: null, title: 'changed', remedy: 'again' };
    expect(await openRaster(source(new ProblemError(problem)))).toMatchObject({ problem });
    expect(await openRaster(source('unplugged'))).toMatchObject({
      problem: { code: 'SRC-001', title: 'cannot be read any more (unplugged)' },
    });
  });
});
