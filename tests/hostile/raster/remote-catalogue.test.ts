import { describe, expect, test } from 'vitest';
import type { Problem } from '../../../src/core/domain/problem';
import { ProblemError, type ByteSource } from '../../../src/core/domain/raster';
import { remoteSource, type RemoteOptions } from '../../../src/core/files/raster/remote-source';
import { openRaster } from '../../../src/core/files/raster/open';
import {
  madeServer,
  servedBytes as bytes,
  servedUrl,
  type Manner,
  type Server,
} from '../../core/files/raster/made-server';
import { readWhole } from '../../core/files/raster/read-whole';
import { writeTiff } from '../../core/files/raster/write-tiff';

async function refusal(from: Server, url = servedUrl, options: RemoteOptions = {}): Promise<Problem> {
  const result = await remoteSource(url, from.fetch, options);
  if (result.ok) throw new Error('was opened');
  return result.problem;
}

async function source(from: Server): Promise<ByteSource> {
  const result = await remoteSource(servedUrl, from.fetch);
  if (!result.ok) throw new Error(result.problem.title);
  return result.value;
}

const rude: readonly (readonly [row: string, manner: Manner, title: RegExp])[] = [
  ['B33 not allowed by the server, or not reached', { breaks: () => true }, /does not let this page read/],
  ['B33 forbidden', { status: () => 403 }, /status 403/],
  ['B33 not found', { status: () => 404 }, /status 404/],
  ['B33 whole files only', { status: () => 200 }, /whole file and no ranges \(status 200\)/],
  ['B33 always in trouble', { status: () => 503 }, /status 503/],
  ['B33 cut off while it sends', { cuts: () => true }, /breaks off.*terminated/],
  ['B33 too few bytes', { send: (part) => part.subarray(1) }, /sent 65535 bytes for the first 65536/],
  ['B33 a range that is none', { range: () => 'bytes */*', status: () => 206 }, /does not say how long/],
];

test.each(rude)('%s: refused, with host, cause and what the owner can do', async (row, manner, title) => {
  const from = madeServer(
    row.includes('range that is none') ? { ...manner, breaks: (request) => request > 1 } : manner,
  );
  const problem = await refusal(from);
  expect(problem).toMatchObject({ code: 'SRC-002', subject: 'ridge north.tif', place: 'maps.example' });
  expect(problem.title).toMatch(title);
  expect(problem.remedy).toMatch(/Download the raster.*CORS/);
});

describe('B33 what goes wrong after opening', () => {
  const later: readonly (readonly [string, Manner, RegExp])[] = [
    ['another range than asked for', { range: (from, to, n) => `bytes ${n > 1 ? from + 1 : from}-${to}/300000` }, /sent 16384 bytes from 98305, asked for 16384 from 98304/],
    ['too few bytes', { send: (part, n) => (n > 1 ? part.subarray(5) : part) }, /sent 16379 bytes/],
    ['a connection that is gone', { breaks: (n) => n > 1 }, /cannot be reached/],
    ['a server that has lost the file', { status: (n) => (n > 1 ? 404 : 206) }, /status 404/],
  ]; // prettier-ignore
  test.each(later)('%s: that read is refused, what has come stays', async (_, manner, title) => {
    const opened = await source(madeServer(manner));
    const reading = opened.read(100_000, 3);
    await expect(reading).rejects.toThrow(ProblemError);
    await expect(reading).rejects.toThrow(title);
    expect(await opened.read(1000, 3)).toEqual(bytes.slice(1000, 1003));
  });

  test('B33 a slow server is given up by the caller’s clock, asked twice more, and then told of', async () => {
    const from = madeServer();
    const slow: Server = {
      asked: from.asked,
      fetch: async (url, init) => {
        void from.fetch(url, init);
        return Promise.reject(new DOMException('The operation was aborted due to timeout', 'TimeoutError'));
      },
    };
    expect((await refusal(slow)).title).toBe('the server does not answer within 15 s');
    expect(from.asked).toHaveLength(3);
  });

  test('trouble that passes is not told', async () => {
    const opened = await source(madeServer({ cuts: (n) => n === 2, status: (n) => (n === 3 ? 502 : 206) }));
    expect(await opened.read(100_000, 3)).toEqual(bytes.slice(100_000, 100_003));
  });
});

describe('B34 a file that changes on the server', () => {
  test.each([
    ['its ETag', { etag: (n) => (n < 3 ? '"a"' : '"b"') }],
    ['its length', { range: (a, b, n) => `bytes ${a}-${b}/${n < 3 ? 300_000 : 300_001}` }],
  ] satisfies [string, Manner][])('by %s: nothing of the new one is read', async (_, manner) => {
    const opened = await source(madeServer(manner));
    expect(await opened.read(100_000, 3)).toEqual(bytes.slice(100_000, 100_003));
    await expect(opened.read(200_000, 3)).rejects.toMatchObject({
      problem: { code: 'SRC-003', remedy: expect.stringMatching(/Load the raster again/) as string },
    });
    expect(await opened.read(100_000, 3)).toEqual(bytes.slice(100_000, 100_003));
  });
});

test.each([
  ['B35 http from a page', 'http://maps.example/a.tif', { onlyHttps: true }, /mixed content/],
  ['B35 a file on this machine', 'file:///a.tif', {}, /no address of a web server/],
  ['B35 another scheme', 's3://bucket/a.tif', {}, /no address of a web server/],
  ['B35 no address at all', 'a.tif', {}, /no address of a web server/],
])('%s is refused before anything is asked', async (_, url, options, title) => {
  const from = madeServer();
  const problem = await refusal(from, url, options);
  expect(problem).toMatchObject({ code: 'SRC-004', subject: 'a.tif' });
  expect(problem.title).toMatch(title);
  expect(problem.remedy).toMatch(/https address, or download/);
  expect(from.asked).toEqual([]);
});

test('B35 http is fine where nobody forbids it', async () => {
  expect((await remoteSource('http://maps.example/a.tif', madeServer().fetch)).ok).toBe(true);
});

/** More than is looked at on opening. */
const largeFile = () =>
  writeTiff({
    widthPx: 1100,
    heightPx: 1100,
    rowsPerStrip: 10,
    cells: Array.from({ length: 1100 * 1100 }, (_, i) => i % 3000),
  });

test('B40 a disk that is unplugged after opening: said with the place, what was read stays', async () => {
  const file = largeFile();
  let isGone = false;
  const disk: ByteSource = {
    name: 'DEM.tif',
    sizeBytes: file.length,
    read: (offset, length) =>
      isGone ? Promise.reject(new Error('ENODEV')) : Promise.resolve(file.slice(offset, offset + length)),
  };
  const opened = await openRaster(disk);
  if (!opened.ok) throw new Error(opened.problem.title);
  const raster = opened.value;
  await raster.loadBlock(0, 0);
  const before = raster.blockInMemory(0, 0);
  isGone = true;
  const problem = { code: 'SRC-001', subject: 'DEM.tif', title: 'cannot be read any more (ENODEV)' };
  await expect(readWhole(raster)).rejects.toMatchObject({ problem });
  expect(raster.blockInMemory(0, 0)).toBe(before);
});

test('B40 a file that has become shorter is never read as if it had not', async () => {
  const file = largeFile();
  let length = file.length;
  const disk: ByteSource = {
    name: 'DEM.tif',
    sizeBytes: file.length,
    read: (offset, wanted) => Promise.resolve(file.slice(offset, Math.min(length, offset + wanted))),
  };
  const opened = await openRaster(disk);
  if (!opened.ok) throw new Error(opened.problem.title);
  length = 2_000_000;
  await expect(readWhole(opened.value)).rejects.toMatchObject({
    problem: { code: 'SRC-001', title: 'cannot be read any more (it has become shorter)' },
  });
});
