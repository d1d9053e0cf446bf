import type { FetchLike } from '../../../../src/core/files/raster/remote-source';

/** The file that is served. */
export const servedBytes = Uint8Array.from({ length: 300_000 }, (_, i) => (i * 31 + (i >> 8)) & 255);
export const servedUrl = 'https://maps.example/dem/ridge%20north.tif?key=1';

export interface Server {
  readonly fetch: FetchLike;
  readonly asked: string[];
}

export interface Manner {
  readonly status?: (request: number) => number;
  readonly etag?: (request: number) => string | null;
  readonly hidesRange?: boolean;
  /** Content-Range as sent; by default the true one. */
  readonly range?: (from: number, to: number, request: number) => string;
  /** The answer begins and its bytes never end. */
  readonly cuts?: (request: number) => boolean;
  readonly breaks?: (request: number) => boolean;
  readonly send?: (part: Uint8Array, request: number) => Uint8Array;
}

/** A server that behaves, or not, as asked. */
export function madeServer(manner: Manner = {}): Server {
  const asked: string[] = [];
  const fetch: FetchLike = (_, { method, headers }) => {
    const request = asked.push(headers['Range'] ?? method);
    if (manner.breaks?.(request)) return Promise.reject(new TypeError('Failed to fetch'));
    const [from = 0, to = servedBytes.length - 1] = (/(\d+)-(\d+)/.exec(headers['Range'] ?? '') ?? [])
      .slice(1)
      .map(Number);
    const part = servedBytes.slice(from, Math.min(to + 1, servedBytes.length));
    const own: Record<string, string | null> = {
      'content-range': manner.hidesRange
        ? null
        : (manner.range?.(from, from + part.length - 1, request) ??
          `bytes ${from}-${from + part.length - 1}/${servedBytes.length}`),
      'content-length': method === 'HEAD' ? String(servedBytes.length) : String(part.length),
      etag: manner.etag?.(request) ?? null,
    };
    return Promise.resolve({
      status: method === 'HEAD' ? 200 : (manner.status?.(request) ?? 206),
      headers: { get: (name: string) => own[name.toLowerCase()] ?? null },
      arrayBuffer: () =>
        manner.cuts?.(request)
          ? Promise.reject(new TypeError('terminated'))
          : Promise.resolve((manner.send?.(part, request) ?? part).slice().buffer),
    });
  };
  return { fetch, asked };
}
