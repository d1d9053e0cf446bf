import type { Figures } from '../assumptions/figures';
import type { Cancel } from '../domain/cancel';
import type { Mark } from '../domain/mark';
import type { Raster } from '../domain/raster';
import type { Hardness } from '../domain/snow';
import type { GroundProfile, LineStation, RunOut, Station, TerrainSummary } from '../domain/station';
import { betaDeg, gradeDeg } from './along-line';
import { groundNotes } from './ground-notes';
import { readPoint, type GroundPoint } from './read-point';
import { readRunOut } from './run-out';
import { Slides } from './slide';
import { designSlopeDeg, slopeSigmaDeg, usualSigmaZM } from './slope-error';
import { Terrain } from './terrain';

export interface GroundRequest {
  readonly stations: readonly LineStation[];
  readonly rasters: readonly Raster[];
  /** Hazards among them end slides. */
  readonly marks: readonly Mark[];
  readonly figures: Figures;
  /** Vertical standard error of each raster as the user knows it, metres; null: by its cell size. */
  readonly sigmaZM: readonly (number | null)[];
  readonly stepM: number;
  /** Share done, 0 to 1. */
  readonly onProgress?: (share: number) => void;
  readonly cancel?: Cancel;
  /** Awaited between pieces of work, so that whoever runs this can hear a cancel meanwhile. */
  readonly breathe?: () => Promise<void>;
}

/** Stations worked on together: those close by need the same blocks. */
const roundStations = 64;

interface StationGround {
  readonly point: GroundPoint;
  readonly runOut: Readonly<Record<Hardness, RunOut>> | null;
}

/** Reads the ground under a line: what the terrain says at each station, and how slips from it may end. */
export async function readGround(request: GroundRequest): Promise<GroundProfile> {
  const { stations, rasters, figures, onProgress, cancel } = request;
  const terrain = new Terrain(rasters);
  const slides = new Slides(terrain, request.marks, figures);
  const grounds: StationGround[] = [];
  for (let from = 0; from < stations.length; from += roundStations) {
    cancel?.throwIfAborted();
    const round = stations.slice(from, from + roundStations);
    grounds.push(
      ...(await terrain.read(
        round,
        ({ position }) => {
          const point = readPoint(terrain, position);
          const runOut =
            point.slopeDeg === null || terrain.isWanting
              ? null
              : readRunOut(slides, position, figures.runOut);
          return { point, runOut };
        },
        cancel,
      )),
    );
    onProgress?.(grounds.length / stations.length);
    await request.breathe?.();
  }

  const summaries = rasters.map((raster, index) => summary(raster, request.sigmaZM[index] ?? null, figures));
  const points = grounds.map(({ point }) => point);
  const read = stations.map((station, i): Station => {
    const { point, runOut } = grounds[i]!;
    const { slopeDeg, aspectDeg, rasterIndex } = point;
    const source = rasterIndex === null ? null : summaries[rasterIndex]!;
    const hasSlope = slopeDeg !== null && source !== null;
    return {
      ...station,
      ...point,
      designSlopeDeg: hasSlope ? designSlopeDeg(slopeDeg, source.cellM, figures.ground) : null,
      slopeSigmaDeg: hasSlope ? slopeSigmaDeg(slopeDeg, source.cellM, source.sigmaZM) : null,
      gradeDeg: gradeDeg(stations, points, i),
      betaDeg: aspectDeg === null ? null : betaDeg(station.bearingDeg, aspectDeg),
      runOut,
    };
  });
  return {
    stations: read,
    lengthM: stations.at(-1)?.alongM ?? 0,
    stepM: request.stepM,
    terrain: summaries,
    notes: await groundNotes(read, terrain, figures.ground.seamJumpM, cancel),
  };
}

function summary(raster: Raster, sigmaZM: number | null, figures: Figures): TerrainSummary {
  return {
    name: raster.name,
    cellM: raster.cellM,
    frame: raster.frame.name,
    surveyed: raster.surveyed,
    sigmaZM: sigmaZM ?? usualSigmaZM(raster.cellM, figures.ground),
    encoding: raster.encoding,
    checksum: raster.checksum,
  };
}
