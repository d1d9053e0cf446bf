import type { Problem } from '../../domain/problem';
import { ProblemError, type ByteSource } from '../../domain/raster';
import { fail, ok, type Result } from '../../domain/result';
import { RangeCache } from './range-cache';
import { refusal, refuse } from './refusal';

/** What is used of the platform's `fetch`; a caller may add a time limit. */
export type FetchLike = (
  url: string,
  init: { method: 'GET' | 'HEAD'; headers: Record<string, string> },
) => Promise<{
  readonly status: number;
  readonly headers: { get(name: string): string | null };
  arrayBuffer(): Promise<ArrayBuffer>;
}>;

type Answer = Awaited<ReturnType<FetchLike>>;

/** The header and directories of most rasters lie in the first 64 kB: they come with the first request. */
const firstBytes = 64 * 1024;
const tries = 3;

/**
 * A raster on a server, read by range requests (RFC 9110, section 14). The file's length, ETag and date are pinned at the
 * first answer: a file that is replaced meanwhile is never read half old and half new.
 */
export async function remoteSource(url: string, fetchRange: FetchLike): Promise<Result<ByteSource, Problem>> {
  const name = nameOf(url);
  try {
    const first = await ask(name, url, fetchRange, 0, firstBytes - 1);
    const head = new Uint8Array(await first.arrayBuffer());
    const sizeBytes = await totalOf(name, url, fetchRange, first);
    const pinned = versionOf(first, sizeBytes);
    if (head.length !== Math.min(firstBytes, sizeBytes))
      refuseAnswer(name, url, `sent ${head.length} bytes for the first ${firstBytes}`);

    const fetchSpan = async (offset: number, lengthBytes: number) => {
      const answer = await ask(name, url, fetchRange, offset, offset + lengthBytes - 1);
      const total = rangeOf(answer)?.total ?? sizeBytes;
      if (!isSame(pinned, versionOf(answer, total)))
        refuse('SRC-003', name, `byte ${offset}`, 'has changed on the server since it was opened');
      const range = rangeOf(answer);
      const bytes = new Uint8Array(await answer.arrayBuffer());
      if (bytes.length !== lengthBytes || (range !== null && range.from !== offset))
        refuseAnswer(
          name,
          url,
          `sent ${bytes.length} bytes from ${range?.from ?? '?'}, asked for ${lengthBytes} from ${offset}`,
        );
      return bytes;
    };
    const cache = new RangeCache(sizeBytes, fetchSpan);
    cache.put(0, head);
    return ok({
      name,
      sizeBytes,
      read: (offset, lengthBytes, cancel) => cache.read(offset, lengthBytes, cancel),
    });
  } catch (cause) {
    if (cause instanceof ProblemError) return fail(cause.problem);
    throw cause;
  }
}

/** One range; a broken connection or a server in trouble is asked again. */
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
      if (answer.status === 206) return answer;
      if (answer.status === 200) refuseAnswer(name, url, 'sends the whole file and no ranges (status 200)');
      if (answer.status < 500) refuseAnswer(name, url, `answers with status ${answer.status}`);
      trouble = `answers with status ${answer.status}`;
    } catch (cause) {
      if (cause instanceof ProblemError) throw cause;
      const why = cause instanceof Error ? cause.message : String(cause);
      trouble = `cannot be reached, or does not let this page read from it (${why})`;
    }
    if (attempt >= tries) refuseAnswer(name, url, trouble);
  }
}

interface ContentRange {
  readonly from: number;
  readonly total: number;
}

function rangeOf(answer: Answer): ContentRange | null {
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
  const host = /^[a-z]+:\/\/([^/?#]+)/i.exec(url)?.[1] ?? url;
  throw new ProblemError(refusal('SRC-002', name, host, `the server ${what}`));
}

function nameOf(url: string): string {
  const last = /([^/?#]+)\/?(?:[?#].*)?$/.exec(url)?.[1] ?? url;
  try {
    return decodeURIComponent(last);
  } catch {
    return last;
  }
}
