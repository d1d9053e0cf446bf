import { openSync, readSync, closeSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';

export interface RangeServer {
  readonly url: string;
  readonly counted: { requests: number; bytes: number };
  stop(): Promise<void>;
}

/** Serves one file by ranges (RFC 9110, 14), and counts what is asked of it. */
export async function serveRanges(path: string): Promise<RangeServer> {
  const size = statSync(path).size;
  const file = openSync(path, 'r');
  const counted = { requests: 0, bytes: 0 };
  const server = createServer(({ method, headers }, answer) => {
    counted.requests++;
    const range = /^bytes=(\d+)-(\d*)$/.exec(headers.range ?? '');
    const from = range ? Number(range[1]) : 0;
    const to = Math.min(size - 1, range?.[2] ? Number(range[2]) : size - 1);
    const length = to - from + 1;
    answer.writeHead(range ? 206 : 200, {
      'accept-ranges': 'bytes',
      'content-length': length,
      'content-type': 'image/tiff',
      etag: '"made"',
      ...(range ? { 'content-range': `bytes ${from}-${to}/${size}` } : {}),
    });
    if (method === 'HEAD') return answer.end();
    const bytes = Buffer.alloc(length);
    readSync(file, bytes, 0, length, from);
    counted.bytes += length;
    return answer.end(bytes);
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const { port } = server.address() as AddressInfo;
  return {
    url: `http://127.0.0.1:${port}/terrain.tif`,
    counted,
    stop: () =>
      new Promise((done) => {
        server.closeAllConnections();
        server.close(() => {
          closeSync(file);
          done();
        });
      }),
  };
}
