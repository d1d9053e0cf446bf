import type { LngLat } from '../core/domain/coordinates';
import { ProblemError } from '../core/domain/raster';
import { lettersOf } from '../core/files/file-kind';
import { readProject, readProjectFile, writeProject } from '../core/files/project';
import { remoteSource, requestMs, type FetchLike } from '../core/files/raster/remote-source';
import { tooLarge } from '../core/files/text';
import { readTrackFile } from '../core/files/track-file';
import { trackInWords } from '../core/files/track-notes';
import { groundAt } from '../core/ground/ground-at';
import { readGround } from '../core/ground/read-ground';
import { traceRunOut } from '../core/ground/run-out';
import { lineFromTrack } from '../core/line/from-track';
import { makeStations } from '../core/line/stations';
import type { Result } from '../core/domain/result';
import type { Problem } from '../core/domain/problem';
import { blobSource } from './blob-source';
import { DisplayTiles } from './display-tiles';
import type { GroundCalls } from './ground-calls';
import { OpenRasters } from './open-rasters';
import { packProfile, stationBuffers } from './profile-columns';
import { Moved, type Port } from './protocol';
import { breathe, holdLife, serve } from './serve';

const rasters = new OpenRasters();
const tiles = new DisplayTiles(rasters);

/** A problem of the user's travels as one; see serve. */
function valueOf<T>(result: Result<T, Problem>): T {
  if (result.ok) return result.value;
  throw new ProblemError(result.problem);
}

const positionsOf = (lngLats: Float64Array): LngLat[] =>
  Array.from({ length: lngLats.length / 2 }, (_, i) => [lngLats[2 * i] ?? NaN, lngLats[2 * i + 1] ?? NaN]);

async function bytesOf(file: Blob, subject: string): Promise<Uint8Array> {
  const large = tooLarge(file.size, { subject, letters: lettersOf(subject) });
  if (large !== null) throw new ProblemError(large);
  return new Uint8Array(await file.arrayBuffer());
}

/** Nothing of the user's goes with a request; the page's policy lets it ask its own origin and others by https. */
const fetchRange: FetchLike = (url, init) =>
  fetch(url, {
    ...init,
    signal: AbortSignal.timeout(requestMs),
    credentials: 'omit',
    referrerPolicy: 'no-referrer',
  });
const addressSource = async (url: string) =>
  valueOf(await remoteSource(url, fetchRange, { onlyHttps: !url.startsWith(`${self.location.origin}/`) }));

holdLife(self.name);
serve<GroundCalls>(self as unknown as Port, {
  openRaster: ({ key, file, name, answers }) => rasters.open(key, blobSource(name, file), answers),
  openRemote: async ({ key, url, answers }) => rasters.open(key, await addressSource(url), answers),
  closeRaster(key) {
    rasters.close(key);
    return null;
  },
  async readTrack({ file, name, answers }) {
    const { fileName, waypoints, notes, tracks } = valueOf(
      readTrackFile(await bytesOf(file, name), name, answers),
    );
    const lines = tracks.map((track) => ({
      kind: track.kind,
      inWords: trackInWords(track),
      extensionCount: track.parts.flat().filter(({ extensions }) => extensions !== undefined).length,
      ...lineFromTrack(track, { id: crypto.randomUUID().slice(0, 8), name: fileName }),
    }));
    return { fileName, waypoints, notes, lines };
  },
  readProject: async ({ file, name }) => valueOf(readProjectFile(await bytesOf(file, name), name)),
  writeProject,
  checkProject: (project) => valueOf(readProject(writeProject(project), project.name)).project,
  async readGround({ lngLats, stepM, marks, figures, rasterKeys, sigmaZM }, { cancel, progress }) {
    // Of many questions that came while this worker was busy, all but the newest are withdrawn here, before any work.
    await breathe();
    cancel.throwIfAborted();
    const profile = await readGround({
      stations: makeStations(positionsOf(lngLats), { stepM, alsoAtM: [] }),
      rasters: await rasters.of(rasterKeys),
      marks,
      figures,
      sigmaZM,
      stepM,
      onProgress: progress,
      cancel,
      breathe,
    });
    const columns = packProfile(profile);
    return new Moved(columns, stationBuffers(columns.stations));
  },
  traceRunOut: async ({ position, snow, marks, figures, rasterKeys }, { cancel }) =>
    traceRunOut({
      position,
      hardness: snow.hardness,
      rasters: await rasters.of(rasterKeys),
      marks,
      figures,
      cancel,
    }),
  elevationsAt: async ({ positions, rasterKeys }, { cancel }) => {
    const points = await groundAt(positions, await rasters.of(rasterKeys), { cancel });
    return points.map(({ elevationM }) => elevationM);
  },
  tile: async ({ kind, ...place }, { cancel }) => {
    const picture = await tiles.picture(kind, place, cancel);
    return picture && new Moved(picture, [picture]);
  },
  contours: async ({ feet, ...place }, { cancel }) => {
    const bytes = await tiles.contours(place, feet, cancel);
    return bytes && new Moved(bytes, [bytes]);
  },
});
