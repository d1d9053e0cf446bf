import type { Figures } from '../core/assumptions/figures';
import type { LngLat } from '../core/domain/coordinates';
import type { Mark } from '../core/domain/mark';
import type { Note } from '../core/domain/problem';
import type { Line, Project } from '../core/domain/project';
import type { Snow } from '../core/domain/snow';
import type { RunOutTrace, TerrainSummary } from '../core/domain/station';
import type { Track, TrackFile } from '../core/domain/track';
import type { Answers } from '../core/files/track-file';
import type { DroppedPoint } from '../core/line/clean';
import type { BridgedGap } from '../core/line/from-track';
import type { ProfileColumns } from './profile-columns';

/** What a file is read with where it is silent: the user's answers. */
export interface RasterAnswers {
  readonly crs: string | null;
  readonly elevationUnit: 'm' | 'ft' | 'usft' | 'cm' | null;
  /** Text of the world file that came with it. */
  readonly worldFile?: string | null;
  /** Names of files that came with it and are not read. */
  readonly beside?: readonly string[];
}

/** A raster that is open in the worker. */
export interface OpenTerrain extends TerrainSummary {
  readonly key: string;
  /** The raster's edge on the ground, closed, counter-clockwise: straight sides may curve in longitude and latitude. */
  readonly outline: readonly LngLat[];
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
  readonly notes: readonly Note[];
}

/** Every line a track file offers, cleaned and joined, with what was done to it. */
export interface ReadTracks extends Pick<TrackFile, 'fileName' | 'waypoints' | 'notes'> {
  readonly lines: readonly {
    readonly line: Line;
    readonly kind: Track['kind'];
    /** Name, length and number of points. */
    readonly inWords: string;
    readonly gaps: readonly BridgedGap[];
    readonly dropped: readonly DroppedPoint[];
    /** Points with extensions of other makers, which a line does not keep. */
    readonly extensionCount: number;
  }[];
}

export interface TileAsk {
  readonly z: number;
  readonly x: number;
  readonly y: number;
  /** Rasters whose ground is shown, in the order of the project. */
  readonly rasterKeys: readonly string[];
}

export const tileKinds = ['relief', 'relief-by-night', 'slope', 'terrain'] as const;
export type TileKind = (typeof tileKinds)[number];

/** The worker that holds the open rasters. Keys are the page's own names for them. */
export interface GroundCalls {
  openRaster: {
    ask: {
      readonly key: string;
      readonly file: Blob;
      readonly name: string;
      readonly answers: RasterAnswers;
    };
    answer: OpenTerrain;
  };
  openRemote: {
    ask: { readonly key: string; readonly url: string; readonly answers: RasterAnswers };
    answer: OpenTerrain;
  };
  closeRaster: { ask: string; answer: null };
  /** `answers`: to the questions of earlier readings, by the code of the problem that asked. */
  readTrack: {
    ask: { readonly file: Blob; readonly name: string; readonly answers: Answers };
    answer: ReadTracks;
  };
  readProject: {
    ask: { readonly file: Blob; readonly name: string };
    answer: { readonly project: Project; readonly notes: readonly Note[] };
  };
  writeProject: { ask: Project; answer: string };
  /** Through the same gate as a file: a project that was kept by another version, or damaged. */
  checkProject: { ask: Project; answer: Project };
  readGround: {
    ask: {
      /** Longitude and latitude of each point, one after the other: a long line as objects would hold up the page. */
      readonly lngLats: Float64Array<ArrayBuffer>;
      readonly stepM: number;
      readonly marks: readonly Mark[];
      readonly figures: Figures;
      /** Rasters to read, in the order of the project, with the vertical error of each where it is known. */
      readonly rasterKeys: readonly string[];
      readonly sigmaZM: readonly (number | null)[];
    };
    answer: ProfileColumns;
  };
  traceRunOut: {
    ask: {
      readonly position: LngLat;
      readonly snow: Snow;
      readonly marks: readonly Mark[];
      readonly figures: Figures;
      readonly rasterKeys: readonly string[];
    };
    answer: readonly RunOutTrace[];
  };
  elevationsAt: {
    ask: { readonly positions: readonly LngLat[]; readonly rasterKeys: readonly string[] };
    answer: readonly (number | null)[];
  };
  tile: { ask: TileAsk & { readonly kind: TileKind }; answer: ImageBitmap | null };
  contours: { ask: TileAsk & { readonly feet: boolean }; answer: ArrayBuffer | null };
}
