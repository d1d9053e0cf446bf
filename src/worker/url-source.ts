import type { Problem } from '../core/domain/problem';
import { ProblemError, type ByteSource } from '../core/domain/raster';

const remoteProblem = (name: string, title: string, remedy: string): ProblemError =>
  new ProblemError({ code: 'TIF-090', subject: name, place: null, title, remedy } satisfies Problem);

/** Nearby reads come from one request: a remote file's headers are many small ones. */
const blockBytes = 1 << 16;
const blocksMax = 512;

/**
 * A file on a server, read by range requests. Refused where the server cannot give ranges; where the file changes while it
 * is read (another entity tag or size) every later read fails, so that no half-old, half-new ground is shown.
 */
export async function urlSource(url: string): Promise<ByteSource> {
  const { hostname, pathname } = new URL(url);
  const name = decodeURIComponent(pathname.split('/').at(-1) || hostname);
  const first = await range(url, name, 0, blockBytes);
  const size = Number(/\/(\d+)$/.exec(first.response.headers.get('content-range') ?? '')?.[1]);
  if (!Number.isSafeInteger(size))
    throw remoteProblem(
      name,
      `${hostname} does not say how large the file is`,
      'The server must expose the Content-Range header; or download the file and open it from this device.',
    );
  const tag = first.response.headers.get('etag');
  const blocks = new Map<number, Promise<Uint8Array>>([[0, Promise.resolve(first.bytes)]]);

  const block = (index: number): Promise<Uint8Array> => {
    const known = blocks.get(index);
    if (known) return known;
    const from = index * blockBytes;
    const asked = range(url, name, from, Math.min(blockBytes, size - from)).then(({ response, bytes }) => {
      if (response.headers.get('etag') === tag) return bytes;
      throw remoteProblem(name, `The file on ${hostname} changed while it was read`, 'Open it again.');
    });
    asked.catch(() => blocks.delete(index));
    blocks.set(index, asked);
    if (blocks.size > blocksMax) blocks.delete(blocks.keys().next().value ?? index);
    return asked;
  };

  return {
    name,
    sizeBytes: size,
    isRemote: true,
    async read(offset, lengthBytes, cancel) {
      cancel?.throwIfAborted();
      if (offset + lengthBytes > size) throw new Error(`${name} ends at byte ${size}`);
      const out = new Uint8Array(lengthBytes);
      const indexes = Array.from(
        { length: Math.floor((offset + lengthBytes - 1) / blockBytes) - Math.floor(offset / blockBytes) + 1 },
        (_, i) => Math.floor(offset / blockBytes) + i,
      );
      const parts = await Promise.all(indexes.map(block));
      cancel?.throwIfAborted();
      parts.forEach((part, i) => {
        const startAt = (indexes[i] ?? 0) * blockBytes - offset;
        const from = Math.max(0, -startAt);
        const to = Math.min(part.length, lengthBytes - startAt);
        out.set(part.subarray(from, to), startAt + from);
      });
      return out;
    },
  };
}

async function range(url: string, name: string, offset: number, lengthBytes: number) {
  const response = await fetch(url, {
    headers: { range: `bytes=${offset}-${offset + lengthBytes - 1}` },
    referrerPolicy: 'no-referrer',
    credentials: 'omit',
  }).catch(() => {
    throw remoteProblem(
      name,
      `${new URL(url).hostname} does not answer`,
      'Check the address and the network; the server must allow other sites to read it (CORS) and the Range header.',
    );
  });
  if (response.status !== 206)
    throw remoteProblem(
      name,
      response.ok
        ? `${new URL(url).hostname} sends only whole files`
        : `${new URL(url).hostname} answers ${response.status}`,
      'Download the file and open it from this device.',
    );
  return { response, bytes: new Uint8Array(await response.arrayBuffer()) };
}
