import type { LngLat } from '../core/domain/coordinates';
import { ProblemError } from '../core/domain/raster';
import { readProject, writeProject } from '../core/files/project';
import { readTrackFile } from '../core/files/track-file';
import { groundAt } from '../core/ground/ground-at';
import { readGround } from '../core/ground/read-ground';
import { traceRunOut } from '../core/ground/run-out';
import { lineFromTrack } from '../core/line/from-track';
import { makeStations } from '../core/line/stations';
import type { Result } from '../core/domain/result';
import type { Problem } from '../core/domain/problem';
import { blobSource } from './blob-source';
import { urlSource } from './url-source';
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

const bytesOf = async (file: Blob): Promise<Uint8Array> => new Uint8Array(await file.arrayBuffer());

holdLife(self.name);
serve<GroundCalls>(self as unknown as Port, {
  openRaster: ({ key, file, name, answers }) => rasters.open(key, blobSource(name, file), answers),
  openRemote: async ({ key, url, answers }) => rasters.open(key, await urlSource(url), answers),
  closeRaster(key) {
    rasters.close(key);
    return null;
  },
  async readTrack({ file, name }) {
    const { fileName, waypoints, notes, tracks } = valueOf(readTrackFile(await bytesOf(file), name));
    const lines = tracks.map((track) => ({
      kind: track.kind,
      ...lineFromTrack(track, { id: crypto.randomUUID().slice(0, 8), name: fileName }),
    }));
    return { fileName, waypoints, notes, lines };
  },
  readProject: async ({ file, name }) => valueOf(readProject(await file.text(), name)),
  writeProject,
  async readGround({ lngLats, stepM, marks, figures, rasterKeys, sigmaZM }, { cancel, progress }) {
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
  elevationAt: async ({ position, rasterKeys }) => {
    const [point] = await groundAt([position], await rasters.of(rasterKeys));
    return point?.elevationM ?? null;
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
