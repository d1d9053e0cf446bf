import type { Figures } from '../assumptions/figures';
import type { Cancel } from '../domain/cancel';
import type { Mark } from '../domain/mark';
import type { Raster } from '../domain/raster';
import type { GroundProfile, LineStation, Station, TerrainSummary } from '../domain/station';
import { betaDeg, gradeDeg } from './along-line';
import { groundNotes } from './ground-notes';
import { readPoint, type GroundPoint } from './read-point';
import { readRunOut } from './run-out';
import { Slides } from './slide';
import { fillBetween, slideSources, type RunOuts } from './slide-sources';
import { designSlopeDeg, slopeSigmaDeg, usualSigmaZM } from './slope-error';
import { roundStations, Terrain } from './terrain';

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

/** Reads the ground under a line: what the terrain says at each station, and how slips from it may end. */
export async function readGround(request: GroundRequest): Promise<GroundProfile> {
  const { stations, rasters, figures, onProgress, cancel } = request;
  const terrain = new Terrain(rasters);
  const slides = new Slides(terrain, request.marks, figures);
  const points: GroundPoint[] = [];
  const sourceRunOuts: RunOuts[] = [];
  let lastSourceM = -Infinity;
  for (let from = 0; from < stations.length; from += roundStations) {
    cancel?.throwIfAborted();
    const round = stations.slice(from, from + roundStations);
    const read = await terrain.read(round, ({ position }) => readPoint(terrain, position), cancel);
    const groundM = round.map(({ alongM }, i) => (read[i]!.slopeDeg === null ? NaN : alongM));
    const isSource = slideSources(groundM, lastSourceM);
    const sources = round.filter((_, i) => isSource[i]);
    const runOuts = await terrain.read(
      sources,
      ({ position }) => readRunOut(slides, position, figures.runOut),
      cancel,
    );
    let next = 0;
    for (const source of isSource) sourceRunOuts.push(source ? runOuts[next++]! : null);
    // After a gap slides are followed anew.
    lastSourceM = Number.isNaN(groundM.at(-1)!) ? -Infinity : (sources.at(-1)?.alongM ?? lastSourceM);
    points.push(...read);
    onProgress?.(points.length / stations.length);
    await request.breathe?.();
  }
  const runOuts = fillBetween(
    sourceRunOuts,
    points.map(({ slopeDeg }) => slopeDeg !== null),
  );

  const summaries = rasters.map((raster, index) => summary(raster, request.sigmaZM[index] ?? null, figures));
  const read = stations.map((station, i): Station => {
    const point = points[i]!;
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
      runOut: runOuts[i]!,
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
    heightsFrom: raster.heightsFrom,
    sigmaZM: sigmaZM ?? usualSigmaZM(raster.cellM, figures.ground),
    encoding: raster.encoding,
    checksum: raster.checksum,
  };
}
