import type { Problem } from '../../domain/problem';
import { ProblemError, type ByteSource } from '../../domain/raster';
import { fail, ok, type Result } from '../../domain/result';
import { RangeCache } from './range-cache';
import { refuse } from './refusal';

/** What is used of the platform's `fetch`; the caller sets the time limit. */
export type FetchLike = (
  url: string,
  init: { method: 'GET' | 'HEAD'; headers: Record<string, string> },
) => Promise<{
  readonly status: number;
  readonly headers: { get(name: string): string | null };
  arrayBuffer(): Promise<ArrayBuffer>;
}>;

/** One request is given up after this, milliseconds; for callers' time limits. */
export const requestMs = 15_000;

export interface RemoteOptions {
  /** Pages may ask other hosts by https alone. */
  readonly onlyHttps?: boolean;
}

interface Answer {
  readonly headers: { get(name: string): string | null };
  readonly bytes: Uint8Array;
}

/** The header and directories of most rasters lie in the first 64 kB: they come with the first request. */
const firstBytes = 64 * 1024;
const tries = 3;

/**
 * A raster on a server, read by range requests (RFC 9110, section 14). The file's length, ETag and date are pinned at the
 * first answer: a file that is replaced meanwhile is never read half old and half new.
 */
export async function remoteSource(
  url: string,
  fetchRange: FetchLike,
  { onlyHttps = false }: RemoteOptions = {},
): Promise<Result<ByteSource, Problem>> {
  const name = nameOf(url);
  try {
    checkAddress(name, url, onlyHttps);
    const first = await ask(name, url, fetchRange, 0, firstBytes - 1);
    const sizeBytes = await totalOf(name, url, fetchRange, first);
    const pinned = versionOf(first, sizeBytes);
    if (first.bytes.length !== Math.min(firstBytes, sizeBytes))
      refuseAnswer(name, url, `sent ${first.bytes.length} bytes for the first ${firstBytes}`);

    const fetchSpan = async (offset: number, lengthBytes: number) => {
      const answer = await ask(name, url, fetchRange, offset, offset + lengthBytes - 1);
      const range = rangeOf(answer);
      if (!isSame(pinned, versionOf(answer, range?.total ?? sizeBytes)))
        refuse('SRC-003', name, `byte ${offset}`, 'has changed on the server since it was opened');
      const from = range?.from ?? offset; // hidden from pages by some servers
      if (answer.bytes.length !== lengthBytes || from !== offset)
        refuseAnswer(
          name,
          url,
          `sent ${answer.bytes.length} bytes from ${from}, asked for ${lengthBytes} from ${offset}`,
        );
      return answer.bytes;
    };
    const cache = new RangeCache(sizeBytes, fetchSpan);
    cache.put(0, first.bytes);
    return ok({
      name,
      sizeBytes,
      isRemote: true,
      read: (offset, lengthBytes, cancel) => cache.read(offset, lengthBytes, cancel),
    });
  } catch (cause) {
    if (cause instanceof ProblemError) return fail(cause.problem);
    throw cause;
  }
}

function checkAddress(name: string, url: string, onlyHttps: boolean): void {
  const scheme = /^([a-z][a-z0-9+.-]*):\/\/[^/?#]/i.exec(url)?.[1]?.toLowerCase();
  if (scheme !== 'https' && scheme !== 'http')
    refuse('SRC-004', name, null, 'has no address of a web server, which begins with https://');
  if (onlyHttps && scheme === 'http')
    refuse('SRC-004', name, hostOf(url), 'is asked for by http, which this page may not do (mixed content)');
}

/** One range, with its bytes; a broken connection or a server in trouble is asked again. */
async function ask(
  name: string,
  url: string,
  fetchRange: FetchLike,
  from: number,
  to: number,
): Promise<Answer> {
  for (let attempt = 1; ; attempt++) {
    let trouble: string;
    try {
      const answer = await fetchRange(url, { method: 'GET', headers: { Range: `bytes=${from}-${to}` } });
      if (answer.status === 206)
        return { headers: answer.headers, bytes: new Uint8Array(await answer.arrayBuffer()) };
      if (answer.status === 200) refuseAnswer(name, url, 'sends the whole file and no ranges (status 200)');
      if (answer.status < 500) refuseAnswer(name, url, `answers with status ${answer.status}`);
      trouble = `answers with status ${answer.status}`;
    } catch (cause) {
      if (cause instanceof ProblemError) throw cause;
      trouble = isTimeout(cause)
        ? `does not answer within ${requestMs / 1000} s`
        : `cannot be reached, breaks off, or does not let this page read from it (${String(cause)})`;
    }
    if (attempt >= tries) refuseAnswer(name, url, trouble);
  }
}

const isTimeout = (cause: unknown): boolean => (cause as Error | null)?.name === 'TimeoutError';

interface ContentRange {
  readonly from: number;
  readonly total: number;
}

function rangeOf(answer: Pick<Answer, 'headers'>): ContentRange | null {
  const found = /^bytes (\d+)-(\d+)\/(\d+)$/.exec(answer.headers.get('content-range') ?? '');
  return found && { from: Number(found[1]), total: Number(found[3]) };
}

/** Browsers hide Content-Range from other origins' pages unless the server shows it; the length can be asked for. */
async function totalOf(name: string, url: string, fetchRange: FetchLike, first: Answer): Promise<number> {
  const range = rangeOf(first);
  if (range !== null && range.from === 0) return range.total;
  try {
    const head = await fetchRange(url, { method: 'HEAD', headers: {} });
    const length = Number(head.headers.get('content-length'));
    if (head.status === 200 && Number.isSafeInteger(length) && length > 0) return length;
  } catch {
    // said below
  }
  return refuseAnswer(name, url, 'does not say how long the file is (Content-Range)');
}

interface Version {
  readonly total: number;
  readonly etag: string | null;
  readonly modified: string | null;
}

function versionOf({ headers }: Answer, total: number): Version {
  return { total, etag: headers.get('etag'), modified: headers.get('last-modified') };
}

function isSame(a: Version, b: Version): boolean {
  return a.total === b.total && a.etag === b.etag && a.modified === b.modified;
}

function refuseAnswer(name: string, url: string, what: string): never {
  return refuse('SRC-002', name, hostOf(url), `the server ${what}`);
}

const hostOf = (url: string) => url.split('/')[2]!;

function nameOf(url: string): string {
  const last = /([^/?#]+)\/?(?:[?#].*)?$/.exec(url)?.[1] ?? url;
  try {
    return decodeURIComponent(last);
  } catch {
    return last;
  }
}
