import type { Project } from '../core/domain/project';
import type { TrackFile } from '../core/domain/track';
import { planGeoJson, tracksGeoJson } from '../core/files/geojson-write';
import { planGpx, tracksGpx } from '../core/files/gpx-write';
import { defaultProject, readProjectFile, writeProject } from '../core/files/project';
import { readTrackFile } from '../core/files/track-file';
import { marksOf } from '../core/files/waypoint-marks';
import { readArguments, UsageError, type Arguments } from './arguments';
import {
  answersOf,
  isProject,
  lineOfTracks,
  lineOptions,
  nameOf,
  readWhole,
  required,
  valueOf,
} from './inputs';
import { mayWrite, outOf, writeOut } from './output';

export const convertHelp = `convert --line F --out F [--to gpx|geojson|firnward.json] [--track n] [--answer CODE=value] [--force]
  One track kind into another, by the ending of --out or by --to: GPX, GeoJSON, KML or a project into GPX, GeoJSON or a project.`;

const kinds = ['gpx', 'geojson', 'firnward.json'] as const;
type Kind = (typeof kinds)[number];

export async function convert(words: readonly string[]): Promise<void> {
  const args = readArguments(words, { ...lineOptions, to: { type: 'string' } });
  const file = required(args, 'line');
  required(args, 'out');
  const kind = kindOf(args);
  mayWrite([outOf(args)], args);
  const bytes = await readWhole(file);
  const subject = nameOf(file);
  const text = isProject(bytes)
    ? projectAs[kind](noted(valueOf(readProjectFile(bytes, subject)), subject).project)
    : tracksAs(kind, noted(valueOf(readTrackFile(bytes, subject, answersOf(args))), subject), subject, args);
  await writeOut(text, outOf(args), args);
}

function kindOf(args: Arguments): Kind {
  const [out, to] = [required(args, 'out').toLowerCase(), args.text('to')];
  if (to !== null) {
    const kind = kinds.find((each) => each === to);
    if (kind === undefined) throw new UsageError(`--to takes ${kinds.join(', ')}; found "${to}"`);
    return kind;
  }
  const kind = (['firnward.json', 'gpx', 'geojson', 'json'] as const).find((each) =>
    out.endsWith(`.${each}`),
  );
  if (kind === undefined)
    throw new UsageError(
      `--out ends in .gpx, .geojson or .firnward.json, or --to names the kind; found "${required(args, 'out')}"`,
    );
  return kind === 'json' ? 'geojson' : kind;
}

/** What was noted while reading goes to standard error. */
function noted<T extends { readonly notes: readonly { readonly text: string }[] }>(
  read: T,
  subject: string,
): T {
  for (const { text } of read.notes) console.error(`${subject}: ${text}`);
  return read;
}

const projectAs: Readonly<Record<Kind, (project: Project) => string>> = {
  gpx: (project) => planGpx(project, null),
  geojson: (project) => planGeoJson(project, null),
  'firnward.json': writeProject,
};

function tracksAs(kind: Kind, read: TrackFile, subject: string, args: Arguments): string {
  if (kind === 'firnward.json') {
    const { line, notes } = lineOfTracks(read, subject, args);
    for (const { text } of notes.slice(read.notes.length)) console.error(`${subject}: ${text}`);
    return writeProject({
      ...defaultProject(),
      name: line.name,
      line,
      marks: marksOf(read.waypoints, (i) => `waypoint-${i + 1}`),
    });
  }
  const number = args.number('track', { min: 1, max: Math.max(1, read.tracks.length) });
  const tracks = number === null ? read.tracks : read.tracks.slice(number - 1, number);
  const chosen = { tracks, waypoints: read.waypoints };
  return kind === 'gpx' ? tracksGpx(chosen) : tracksGeoJson(chosen);
}
