import { expect, test } from 'vitest';
import { remoteSource, type FetchLike } from '../../../../src/core/files/raster/remote-source';

const bytes = Uint8Array.from({ length: 300_000 }, (_, i) => (i * 31 + (i >> 8)) & 255);
const url = 'https://maps.example/dem/ridge%20north.tif?key=1';

interface Server {
  readonly fetch: FetchLike;
  readonly asked: string[];
}

interface Manner {
  readonly status?: (request: number) => number;
  readonly etag?: (request: number) => string | null;
  readonly hidesRange?: boolean;
  readonly breaks?: (request: number) => boolean;
  readonly send?: (part: Uint8Array, request: number) => Uint8Array;
}

function server(manner: Manner = {}): Server {
  const asked: string[] = [];
  const fetch: FetchLike = (_, { method, headers }) => {
    const request = asked.push(headers['Range'] ?? method);
    if (manner.breaks?.(request)) return Promise.reject(new TypeError('Failed to fetch'));
    const [from = 0, to = bytes.length - 1] = (/(\d+)-(\d+)/.exec(headers['Range'] ?? '') ?? [])
      .slice(1)
      .map(Number);
    const part = bytes.slice(from, Math.min(to + 1, bytes.length));
    const own: Record<string, string | null> = {
      'content-range': manner.hidesRange ? null : `bytes ${from}-${from + part.length - 1}/${bytes.length}`,
      'content-length': method === 'HEAD' ? String(bytes.length) : String(part.length),
      etag: manner.etag?.(request) ?? null,
    };
    return Promise.resolve({
      status: method === 'HEAD' ? 200 : (manner.status?.(request) ?? 206),
      headers: { get: (name: string) => own[name.toLowerCase()] ?? null },
      arrayBuffer: () => Promise.resolve((manner.send?.(part, request) ?? part).slice().buffer),
    });
  };
  return { fetch, asked };
}

async function open(from: Server) {
  const result = await remoteSource(url, from.fetch);
  if (!result.ok) throw new Error(result.problem.title);
  return result.value;
}

async function problemOf(from: Server) {
  const result = await remoteSource(url, from.fetch);
  if (result.ok) throw new Error('was opened');
  return result.problem;
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

const rude: readonly (readonly [string, Manner, RegExp])[] = [
  ['a server that ignores ranges', { status: () => 200 }, /whole file and no ranges/],
  ['not found', { status: () => 404 }, /status 404/],
  ['forbidden', { status: () => 403 }, /status 403/],
  ['always in trouble', { status: () => 503 }, /status 503/],
  ['never reached', { breaks: () => true }, /cannot be reached, or does not let this page read/],
  ['sent too little', { send: (part: Uint8Array) => part.subarray(1) }, /sent \d+ bytes/],
];

test.each(rude)('%s: refused with the host named', async (_, manner, title) => {
  const problem = await problemOf(server(manner));
  expect(problem).toMatchObject({ code: 'SRC-002', place: 'maps.example' });
  expect(problem.title).toMatch(title);
});

test('trouble that passes is asked again', async () => {
  const source = await open(
    server({ status: (request) => (request === 1 ? 502 : 206), breaks: (request) => request === 3 }),
  );
  expect(await source.read(100_000, 3)).toEqual(bytes.slice(100_000, 100_003));
});

test('a file that changes on the server is never read half old, half new', async () => {
  const source = await open(server({ etag: (request) => (request < 3 ? '"a"' : '"b"') }));
  expect(await source.read(100_000, 3)).toEqual(bytes.slice(100_000, 100_003));
  await expect(source.read(200_000, 3)).rejects.toMatchObject({ problem: { code: 'SRC-003' } });
});

test('a read that was stopped gives nothing', async () => {
  const source = await open(server());
  await expect(source.read(100_000, 3, AbortSignal.abort())).rejects.toThrow();
});
