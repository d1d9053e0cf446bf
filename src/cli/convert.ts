import { basename, extname } from 'node:path';
import { defaultProject, writeProject } from '../core/files/project';
import { tracksGeoJson } from '../core/files/geojson-write';
import { tracksGpx } from '../core/files/gpx-write';
import { readTrackFile } from '../core/files/track-file';
import { readArguments, UsageError } from './arguments';
import { lineOptions, readLine, readWhole, required, valueOf } from './inputs';
import { writeOut } from './output';

export const convertHelp = `convert --line F --out F [--track n]
  One track kind into another, by the ending of --out: .gpx, .geojson, .firnward.json.`;

export async function convert(words: readonly string[]): Promise<void> {
  const args = readArguments(words, { ...lineOptions });
  const file = required(args, 'line');
  const out = required(args, 'out');
  if (out.endsWith('.firnward.json')) {
    const { line, notes } = await readLine(args);
    for (const { text } of notes) console.error(`${basename(file)}: ${text}`);
    await writeOut(writeProject({ ...defaultProject(), name: line.name, line }), out);
    return;
  }
  const read = valueOf(readTrackFile(await readWhole(file), basename(file)));
  const number = args.number('track', { min: 1, max: Math.max(1, read.tracks.length) });
  const tracks = number === null ? read.tracks : read.tracks.slice(number - 1, number);
  for (const { text } of read.notes) console.error(`${basename(file)}: ${text}`);
  switch (extname(out).toLowerCase()) {
    case '.gpx':
      return writeOut(tracksGpx({ tracks, waypoints: read.waypoints }), out);
    case '.geojson':
    case '.json':
      return writeOut(tracksGeoJson({ tracks, waypoints: read.waypoints }), out);
    default:
      throw new UsageError(`--out ends in .gpx, .geojson or .firnward.json; found "${out}"`);
  }
}
