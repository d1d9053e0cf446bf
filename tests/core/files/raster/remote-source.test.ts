import { expect, test } from 'vitest';
import { remoteSource } from '../../../../src/core/files/raster/remote-source';
import { madeServer as server, servedBytes as bytes, servedUrl as url, type Server } from './made-server';

async function open(from: Server) {
  const result = await remoteSource(url, from.fetch);
  if (!result.ok) throw new Error(result.problem.title);
  return result.value;
}

test('reads any span rightly, each byte once', async () => {
  const from = server();
  const source = await open(from);
  expect([source.name, source.sizeBytes]).toEqual(['ridge north.tif', bytes.length]);
  const spans = [[0, 10], [65_530, 20], [100_000, 50_000], [99_990, 30], [299_999, 1], [150_000, 1]] as const; // prettier-ignore
  for (const [offset, length] of spans)
    expect(await source.read(offset, length)).toEqual(bytes.slice(offset, offset + length));
  const sent = from.asked.reduce((sum, range) => {
    const [a = 0, b = -1] = (/(\d+)-(\d+)/.exec(range) ?? []).slice(1).map(Number);
    return sum + b - a + 1;
  }, 0);
  expect(sent).toBeLessThan(160_000);
  expect(from.asked.length).toBeLessThanOrEqual(4);
});

test('two readers of the same part at the same time share the request', async () => {
  const from = server();
  const source = await open(from);
  const [a, b] = await Promise.all([source.read(200_000, 1000), source.read(200_500, 1000)]);
  expect([a, b]).toEqual([bytes.slice(200_000, 201_000), bytes.slice(200_500, 201_500)]);
  expect(from.asked.length).toBe(2);
});

test('the length is asked for where a page may not see Content-Range', async () => {
  const from = server({ hidesRange: true });
  const source = await open(from);
  expect(source.sizeBytes).toBe(bytes.length);
  expect(await source.read(250_000, 5)).toEqual(bytes.slice(250_000, 250_005));
  expect(from.asked).toContain('HEAD');
});

test('trouble that passes is asked again', async () => {
  const source = await open(
    server({ status: (request) => (request === 1 ? 502 : 206), breaks: (request) => request === 3 }),
  );
  expect(await source.read(100_000, 3)).toEqual(bytes.slice(100_000, 100_003));
});

test('a read that was stopped gives nothing', async () => {
  const source = await open(server());
  await expect(source.read(100_000, 3, AbortSignal.abort())).rejects.toThrow();
});

test('E12 a network that goes and comes in the middle of a window: what came stays, the rest is told of and read later', async () => {
  let isGone = false;
  const from = server({ breaks: () => isGone });
  const source = await open(from);
  const near = await source.read(100_000, 20_000);
  isGone = true;
  await expect(source.read(100_000, 60_000)).rejects.toMatchObject({ problem: { code: 'SRC-002' } });
  const asked = from.asked.length;
  expect(await source.read(100_000, 20_000)).toEqual(near);
  expect(from.asked.length).toBe(asked);
  isGone = false;
  expect(await source.read(100_000, 60_000)).toEqual(bytes.slice(100_000, 160_000));
});
