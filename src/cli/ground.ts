import type { LngLat } from '../core/domain/coordinates';
import { highGroundM } from '../core/domain/station';
import type { Raster } from '../core/domain/raster';
import { groundCsv, groundJson, type GroundRow } from '../core/files/ground-write';
import { readPointsCsv } from '../core/files/points-csv';
import { countText } from '../core/wording/numbers';
import { groundAt } from '../core/ground/ground-at';
import { makeStations } from '../core/line/stations';
import { readArguments, UsageError, type Arguments } from './arguments';
import { lineOptions, nameOf, readLine, readWhole, stepOf, valueOf } from './inputs';
import { mayWrite, outOf, progressLine, tell, writeOut } from './output';
import { openRasters, rasterOptions } from './rasters';

export const groundHelp = `ground --elevation F... (--at points.csv | --line F [--step 5] [--track n] [--answer CODE=value]) [--crs EPSG:n] [--elevation-unit m|ft|usft|cm] [--json] [--out F]
  Terrain at points: CSV lon,lat,elevation_m,slope_deg,aspect_deg,curvature_per_m, empty where there is no data.`;

export async function ground(words: readonly string[]): Promise<void> {
  const args = readArguments(
    words,
    { ...lineOptions, ...rasterOptions, at: { type: 'string' }, step: { type: 'string' } },
    ['elevation'],
  );
  mayWrite([outOf(args)], args);
  if ((args.text('at') === null) === (args.text('line') === null))
    throw new UsageError('give either --at points.csv or --line F');
  const { rasters, close } = await openRasters(args);
  try {
    const points = await pointsOf(args, rasters);
    const progress = progressLine('reading the ground');
    const ground = await groundAt(points, rasters, { onProgress: progress.at });
    progress.end();
    // Only now: the list grows while cells are read.
    for (const { name, notes } of rasters) for (const note of notes) tell(`${name}: ${note.text}`);
    tellZeros(ground);
    const asText = args.flag('json') ? groundJson : groundCsv;
    await writeOut(asText(points, ground), outOf(args), args);
  } finally {
    close();
  }
}

async function pointsOf(args: Arguments, rasters: readonly Raster[]): Promise<readonly LngLat[]> {
  const file = args.text('at');
  if (file !== null) return valueOf(readPointsCsv(await readWhole(file), nameOf(file)));
  const { positions } = await readLine(args);
  const { stepM, note } = stepOf(args, rasters);
  if (note !== null) tell(note);
  return makeStations(positions, { stepM, alsoAtM: [] }).map(({ position }) => position);
}

function tellZeros(ground: readonly GroundRow[]): void {
  const zeros = ground.filter(({ elevationM }) => elevationM === 0).length;
  if (zeros === 0 || !ground.some(({ elevationM }) => (elevationM ?? NaN) > highGroundM)) return;
  tell(
    `${countText(zeros, 'point')} at exactly 0 m, and others high above the sea: perhaps holes filled with zeros`,
  );
}
