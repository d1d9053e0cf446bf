import { readFileSync, statSync } from 'node:fs';
import { basename } from 'node:path';
import type { LngLat } from '../core/domain/coordinates';
import type { Note, Problem } from '../core/domain/problem';
import type { Line, Project } from '../core/domain/project';
import { ProblemError } from '../core/domain/raster';
import type { Result } from '../core/domain/result';
import type { TrackFile } from '../core/domain/track';
import { chooseTrack } from '../core/files/choose-track';
import { lettersOf } from '../core/files/file-kind';
import { tooLarge } from '../core/files/text';
import { readTrackFile, type Answers } from '../core/files/track-file';
import { settledGaps, settledJumps } from '../core/files/line-questions';
import { countText } from '../core/wording/numbers';
import { lineFromTrack } from '../core/line/from-track';
import { UsageError, type Arguments } from './arguments';

/** Options of every verb that reads a line. */
export const lineOptions = {
  line: { type: 'string' },
  track: { type: 'string' },
  answer: { type: 'string', multiple: true },
} as const;

/** Answers to questions about the line's file, `--answer GPX-025=drop`, by the code of the problem that asks. */
export function answersOf(args: Arguments): Answers {
  const answers = args.texts('answer').map((text) => /^([A-Z]+-\d{3})=(.+)$/.exec(text) ?? text);
  const strange = answers.find((answer) => typeof answer === 'string');
  if (strange !== undefined)
    throw new UsageError(`--answer takes a code and a value, GPX-025=drop; found "${strange}"`);
  return Object.fromEntries(answers.map(([, code, value]) => [code, value] as const)) as Answers;
}

/** The value, or the problem thrown on to the entry, which says it and leaves with 3. */
export function valueOf<T>(result: Result<T, Problem>): T {
  if (!result.ok) throw new ProblemError({ kept: 'Nothing was written.', ...result.problem });
  return result.value;
}

/** The name a file goes by in messages. */
export const nameOf = (file: string): string => (file === '-' ? 'standard input' : basename(file));

/** A whole file, or standard input for a dash. */
export async function readWhole(file: string): Promise<Uint8Array> {
  if (file === '-') return readStandardInput();
  const refused = (code: string, title: string, remedy: string): Problem => ({
    code,
    subject: nameOf(file),
    place: null,
    title,
    remedy,
  });
  try {
    const { size } = statSync(file);
    const large = tooLarge(size, { subject: basename(file), letters: lettersOf(file) });
    if (large !== null) throw new ProblemError(large);
    return readFileSync(file);
  } catch (error) {
    if (error instanceof ProblemError) throw error;
    const why = (error as NodeJS.ErrnoException).code ?? String(error);
    throw new ProblemError(
      refused('IN-001', `cannot be read (${why})`, 'Check the name and the permission.'),
    );
  }
}

let isInputRead = false;

async function readStandardInput(): Promise<Uint8Array> {
  if (isInputRead) throw new UsageError('only one file can be read from standard input');
  isInputRead = true;
  const chunks: Uint8Array[] = [];
  let bytes = 0;
  for await (const chunk of process.stdin as AsyncIterable<Uint8Array>) {
    chunks.push(chunk);
    bytes += chunk.length;
    const large = tooLarge(bytes, { subject: nameOf('-'), letters: 'GPX' });
    if (large !== null) throw new ProblemError(large);
  }
  return Buffer.concat(chunks);
}

export interface ChosenLine {
  readonly line: Line;
  readonly positions: readonly LngLat[];
  readonly notes: readonly Note[];
}

/** The file that the line is in: where none is named, the project. */
export const lineFile = (args: Arguments): string =>
  args.text('line') ?? args.text('project') ?? required(args, 'line');

/** The line of a project, or of a track file; of several tracks, the one that `--track` names by its number. */
export async function readLine(args: Arguments): Promise<ChosenLine> {
  const file = lineFile(args);
  const subject = nameOf(file);
  const bytes = await readWhole(file);
  if (isProject(bytes)) {
    const { readProjectFile } = await import('../core/files/project');
    const { project, notes } = valueOf(readProjectFile(bytes, subject));
    const positions = project.line.points.map(({ position }) => position);
    return { line: project.line, positions, notes: [...notes, ...settingsNote(args, project, subject)] };
  }
  return lineOfTracks(valueOf(readTrackFile(bytes, subject, answersOf(args))), subject, args);
}

/** A line that is taken out of a project leaves all else there. */
function settingsNote(args: Arguments, { party, marks, overrides }: Project, subject: string): Note[] {
  if (args.text('project') !== null) return [];
  const left = `team of ${party.climbers.length}, marks (${marks.length}) and painted stretches (${overrides.length})`;
  const text = `only its line is taken; for its ${left} give it as --project too`;
  return [{ code: 'IN-006', subject, text }];
}

/** Stretches are painted by distance: on a line of its own, a project's may lie elsewhere on the one that is planned. */
export function paintedElsewhere({ line: own, name, overrides, schedule }: Project, line: Line): Note[] {
  const painted = overrides.length + schedule.snowChanges.length;
  const places = ({ points }: Line) => JSON.stringify(points.map(({ position }) => position));
  if (painted === 0 || own.points.length === 0 || places(own) === places(line)) return [];
  const text = `${painted} painted stretches belong to its own line; they are taken at the same distances along ${line.name}`;
  return [{ code: 'IN-007', subject: name === '' ? 'the project' : name, text }];
}

/** A project says what it is near its beginning; GeoJSON never says "format". */
export const isProject = (bytes: Uint8Array): boolean =>
  /^\s*\{[^]*"format"\s*:\s*"firnward-project"/.test(new TextDecoder().decode(bytes.subarray(0, 1000)));

/** The one line to plan among the tracks that were read; what only the user knows of it must have been answered. */
export function lineOfTracks(read: TrackFile, subject: string, args: Arguments): ChosenLine {
  const answers = answersOf(args);
  const track = valueOf(chooseTrack(read, args.number('track', { min: 1, max: 100_000 })));
  const { line: whole, gaps, dropped } = lineFromTrack(track, { id: 'line', name: subject });
  const notes = [...read.notes];
  const note = (code: string, text: string) => notes.push({ code, subject, text });
  if (dropped.length > 0)
    note('GPX-026', `left out: ${countText(dropped.length, 'point')} in the place of the one before`);
  const { points, crossed } = valueOf(settledGaps({ points: whole.points, gaps, subject, answers }));
  for (const { index, lengthM } of crossed)
    note(
      'GPX-017',
      `a gap of ${Math.round(lengthM)} m before point ${index + 1} was crossed by a straight line`,
    );
  const line = { ...whole, points: valueOf(settledJumps({ points, subject, answers })) };
  return { line, positions: line.points.map(({ position }) => position), notes };
}

/**
 * How far apart stations stand along a line, metres: `--step`, but never more than half a cell of the finest raster, or slopes
 * between stations would go unseen.
 */
export function stepOf(
  args: Arguments,
  rasters: readonly { readonly cellM: number }[],
): { readonly stepM: number; readonly note: string | null } {
  const wantedM = args.number('step', { min: 0.1, max: 1000 });
  const mostM = Math.min(...rasters.map(({ cellM }) => cellM)) / 2;
  const stepM = Math.min(wantedM ?? 5, mostM);
  const isCut = wantedM !== null && stepM < wantedM;
  const note = `stations stand every ${Number(stepM.toFixed(2))} m, half a cell of the finest raster, not every ${wantedM} m as --step asks`;
  return { stepM, note: isCut ? note : null };
}

export function required(args: Arguments, name: string): string {
  const value = args.text(name);
  if (value === null) throw new UsageError(`--${name} is missing`);
  return value;
}
