import type { Problem } from '../../domain/problem';
import { ProblemError, type ByteSource, type Raster } from '../../domain/raster';
import { fail, ok, type Result } from '../../domain/result';
import { GuardedReader } from './guarded-reader';
import { isAscHead, openAsc } from './open-asc';
import { isHgtName, openHgt } from './open-hgt';
import type { RasterOptions } from './raster-options';
import { refuse } from './refusal';
import { openTiff } from './tiff/open-tiff';
import { whatItLooksLike } from './what-it-looks-like';

export type { RasterOptions };

/**
 * Opens an elevation raster: GeoTIFF, .hgt or .asc. Only what is needed to place and judge it is read; cells come by
 * blocks. The answer is a raster that is placed and scaled rightly, or a problem with a remedy.
 */
export async function openRaster(
  source: ByteSource,
  options: RasterOptions = {},
): Promise<Result<Raster, Problem>> {
  const reader = new GuardedReader(source);
  try {
    return ok(await open(reader, options));
  } catch (cause) {
    if (cause instanceof ProblemError) return fail(cause.problem);
    throw cause;
  }
}

async function open(reader: GuardedReader, options: RasterOptions): Promise<Raster> {
  const { name, sizeBytes } = reader;
  if (sizeBytes === 0) refuse('TIF-001', name, null, 'is empty');
  const head = await reader.bytes(0, Math.min(64, sizeBytes), 'header');
  const checksum = await checksumOf(reader, options);
  if (isTiffHead(head)) return openTiff(reader, options, checksum);
  const text = String.fromCharCode(...head);
  if (isAscHead(new TextDecoder().decode(head))) return openAsc(reader, options, checksum);
  if (isHgtName(name)) return openHgt(reader, checksum);
  return refuse('TIF-001', name, null, `is no elevation raster; it looks like ${whatItLooksLike(text)}`);
}

function isTiffHead(head: Uint8Array): boolean {
  const order = String.fromCharCode(...head.subarray(0, 2));
  const [low, high] = order === 'II' ? [head[2], head[3]] : [head[3], head[2]];
  return (order === 'II' || order === 'MM') && high === 0 && (low === 42 || low === 43);
}

const digestBytes = 64 * 2 ** 20;

async function checksumOf(reader: GuardedReader, { digest }: RasterOptions): Promise<string | null> {
  if (digest === undefined || reader.source.isRemote || reader.sizeBytes > digestBytes) return null;
  return digest(await reader.whole());
}
