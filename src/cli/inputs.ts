import { readFile, stat } from 'node:fs/promises';
import { basename } from 'node:path';
import { createHash } from 'node:crypto';
import { inflate } from 'node:zlib';
import type { LngLat } from '../core/domain/coordinates';
import type { Note, Problem } from '../core/domain/problem';
import type { Line, Project, TerrainRef } from '../core/domain/project';
import { ProblemError, type ByteSource, type Raster } from '../core/domain/raster';
import type { Result } from '../core/domain/result';
import { hardnesses, type Hardness, type Snow } from '../core/domain/snow';
import { chooseTrack } from '../core/files/choose-track';
import { defaultProject, readProjectFile } from '../core/files/project';
import { lettersOf } from '../core/files/file-kind';
import { openRaster, type RasterOptions } from '../core/files/raster/open';
import { remoteSource, requestMs, type FetchLike } from '../core/files/raster/remote-source';
import { tooLarge } from '../core/files/text';
import { readTrackFile } from '../core/files/track-file';
import { lineFromTrack } from '../core/line/from-track';
import { UsageError, type Arguments } from './arguments';
import { besideFile } from './beside';
import { openFileSource, type FileSource } from './file-source';

/** Options of every verb that reads a line or a raster. */
export const lineOptions = { line: { type: 'string' }, track: { type: 'string' } } as const;
export const rasterOptions = {
  elevation: { type: 'string', multiple: true },
  crs: { type: 'string' },
  'elevation-unit': { type: 'string' },
} as const;

/** The value, or the problem thrown on to the entry, which says it and leaves with 3. */
export function valueOf<T>(result: Result<T, Problem>): T {
  if (!result.ok) throw new ProblemError(result.problem);
  return result.value;
}

export async function readWhole(file: string): Promise<Uint8Array> {
  const refused = (code: string, title: string, remedy: string): Problem => ({
    code,
    subject: basename(file),
    place: null,
    title,
    remedy,
  });
  try {
    const { size } = await stat(file);
    const large = tooLarge(size, { subject: basename(file), letters: lettersOf(file) });
    if (large !== null) throw new ProblemError(large);
    return await readFile(file);
  } catch (error) {
    if (error instanceof ProblemError) throw error;
    const why = (error as NodeJS.ErrnoException).code ?? String(error);
    throw new ProblemError(
      refused('IN-001', `cannot be read (${why})`, 'Check the name and the permission.'),
    );
  }
}

export interface ChosenLine {
  readonly line: Line;
  readonly positions: readonly LngLat[];
  readonly notes: readonly Note[];
}

/** The line of a track file; of several, the one that `--track` names by its number. */
export async function readLine(args: Arguments): Promise<ChosenLine> {
  const file = required(args, 'line');
  const subject = basename(file);
  const read = valueOf(readTrackFile(await readWhole(file), subject));
  const track = valueOf(chooseTrack(read, args.number('track', { min: 1, max: 100_000 })));
  const { line, gaps, dropped } = lineFromTrack(track, { id: 'line', name: subject });
  const notes = [...read.notes];
  const note = (code: string, text: string) => notes.push({ code, subject, text });
  if (dropped.length > 0)
    note('GPX-026', `${dropped.length} points that repeat the one before were left out`);
  for (const { index, lengthM } of gaps)
    note(
      'GPX-017',
      `a gap of ${Math.round(lengthM)} m before point ${index + 1} was crossed by a straight line`,
    );
  return { line, positions: line.points.map(({ position }) => position), notes };
}

export interface OpenRasters {
  readonly rasters: readonly Raster[];
  readonly close: () => Promise<void>;
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
  const close = async () => {
    for (const source of sources) if ('close' in source) await (source as FileSource).close();
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
        inflate: inflateBytes,
        digest: wantsChecksum ? digest : undefined,
        ...(source.isRemote ? {} : besideFile(file)),
      };
      rasters.push(valueOf(await openRaster(source, answers)));
    }
    return { rasters, close };
  } catch (error) {
    await close();
    throw error;
  }
}

function unitOf(args: Arguments): RasterOptions['elevationUnit'] {
  const unit = args.text('elevation-unit');
  if (unit === null || unit === 'm' || unit === 'ft' || unit === 'usft' || unit === 'cm')
    return unit ?? undefined;
  throw new UsageError(`--elevation-unit takes m, ft, usft or cm; found "${unit}"`);
}

/** The project that `--project` names, or the default one; `--snow` goes before what it says. */
export async function readSettings(args: Arguments): Promise<{ project: Project; notes: readonly Note[] }> {
  const file = args.text('project');
  const read =
    file === null
      ? { project: defaultProject(), notes: [] }
      : valueOf(readProjectFile(await readWhole(file), basename(file)));
  const snow = snowOf(args, read.project.snow);
  return { project: { ...read.project, snow }, notes: read.notes };
}

export function snowOf(args: Arguments, usual: Snow): Snow {
  const hardness = args.text('snow');
  if (hardness === null) return usual;
  if (!(hardnesses as readonly string[]).includes(hardness))
    throw new UsageError(`--snow takes ${hardnesses.join(', ')}; found "${hardness}"`);
  return { ...usual, hardness: hardness as Hardness };
}

export function required(args: Arguments, name: string): string {
  const value = args.text(name);
  if (value === null) throw new UsageError(`--${name} is missing`);
  return value;
}

const fetchRange: FetchLike = (url, init) => fetch(url, { ...init, signal: AbortSignal.timeout(requestMs) });

async function sourceOf(file: string): Promise<ByteSource> {
  if (/^[a-z][a-z0-9+.-]*:\/\//i.test(file)) return valueOf(await remoteSource(file, fetchRange));
  try {
    return await openFileSource(file);
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

const digest = (bytes: Uint8Array) => Promise.resolve(createHash('sha256').update(bytes).digest('hex'));

/** The platform's inflate, which refuses to grow beyond the bound; a usual tile comes out in one piece. */
function inflateBytes(deflated: Uint8Array, maxBytes: number): Promise<Uint8Array> {
  const bounds = { maxOutputLength: maxBytes, chunkSize: Math.max(64, Math.min(maxBytes, 2 ** 20)) };
  return new Promise((done, failed) =>
    inflate(deflated, bounds, (error, bytes) => (error ? failed(error) : done(bytes))),
  );
}
