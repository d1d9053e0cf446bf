import { basename } from 'node:path';
import type { TerrainRef } from '../core/domain/project';
import { ProblemError, type ByteSource, type Raster } from '../core/domain/raster';
import { openRaster, type RasterOptions } from '../core/files/raster/open';
import type { FetchLike } from '../core/files/raster/remote-source';
import { UsageError, type Arguments } from './arguments';
import { besideFile } from './beside';
import { openFileSource, type FileSource } from './file-source';
import { inflater } from './inflate';
import { valueOf } from './inputs';

/** Options of every verb that reads rasters. */
export const rasterOptions = {
  elevation: { type: 'string', multiple: true },
  crs: { type: 'string' },
  'elevation-unit': { type: 'string' },
} as const;

export interface OpenRasters {
  readonly rasters: readonly Raster[];
  readonly close: () => void;
}

export interface RasterWishes {
  /** What a project remembers of them: its answers stand where no flag says otherwise. */
  readonly known?: readonly TerrainRef[];
  /** Files up to 64 MB are read whole for it. */
  readonly wantsChecksum?: boolean;
}

/** The rasters of `--elevation`, in order. Close them when done. */
export async function openRasters(
  args: Arguments,
  { known = [], wantsChecksum = false }: RasterWishes = {},
): Promise<OpenRasters> {
  const files = args.texts('elevation');
  if (files.length === 0) throw new UsageError('--elevation is missing: give one or more elevation rasters');
  const said = { crs: args.text('crs'), elevationUnit: unitOf(args) };
  const sources: ByteSource[] = [];
  const close = () => {
    for (const source of sources) if ('close' in source) (source as FileSource).close();
  };
  try {
    const rasters: Raster[] = [];
    for (const file of files) {
      const source = await sourceOf(file);
      sources.push(source);
      const remembered = known.find(({ fileName }) => fileName === source.name);
      const answers: RasterOptions = {
        crs: said.crs ?? remembered?.crs ?? undefined,
        elevationUnit: said.elevationUnit ?? remembered?.elevationUnit ?? undefined,
        inflater,
        digest: wantsChecksum ? digest : undefined,
        ...(source.isRemote ? {} : besideFile(file)),
      };
      rasters.push(valueOf(await openRaster(source, answers)));
    }
    return { rasters, close };
  } catch (error) {
    close();
    throw error;
  }
}

function unitOf(args: Arguments): RasterOptions['elevationUnit'] {
  const unit = args.text('elevation-unit');
  if (unit === null || unit === 'm' || unit === 'ft' || unit === 'usft' || unit === 'cm')
    return unit ?? undefined;
  throw new UsageError(`--elevation-unit takes m, ft, usft or cm; found "${unit}"`);
}

async function sourceOf(file: string): Promise<ByteSource> {
  if (file === '-')
    throw new UsageError(
      '--elevation takes files and addresses, which are read by parts; not standard input',
    );
  if (/^[a-z][a-z0-9+.-]*:\/\//i.test(file)) {
    const { remoteSource, requestMs } = await import('../core/files/raster/remote-source');
    const fetchRange: FetchLike = (url, init) =>
      fetch(url, { ...init, signal: AbortSignal.timeout(requestMs) });
    return valueOf(await remoteSource(file, fetchRange));
  }
  try {
    return openFileSource(file);
  } catch (error) {
    throw new ProblemError({
      code: 'IN-001',
      subject: basename(file),
      place: null,
      title: `cannot be read (${(error as NodeJS.ErrnoException).code ?? String(error)})`,
      remedy: 'Check the name and the permission.',
    });
  }
}

/** Taken when it is needed: few jobs do, and loading it takes longer than most. */
const digest = (bytes: Uint8Array) =>
  Promise.resolve(process.getBuiltinModule('node:crypto').createHash('sha256').update(bytes).digest('hex'));
