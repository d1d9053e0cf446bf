import type { Problem } from '../domain/problem';
import { fail, ok, type Result } from '../domain/result';
import type { Track, TrackFile } from '../domain/track';
import { trackInWords } from './track-notes';

/** The one line of a file, or the one with the number given (from 1); else the question which. */
export function chooseTrack(file: TrackFile, number: number | null): Result<Track, Problem> {
  const { tracks, waypoints, fileName } = file;
  const refuse = (code: string, title: string, remedy: string): Problem => ({
    code,
    subject: fileName,
    place: null,
    title,
    remedy,
  });
  if (tracks.length === 0)
    return fail(
      refuse(
        'GPX-015',
        `the file has ${waypoints.length} waypoints and no line`,
        'Open a file with a track or a route.',
      ),
    );
  const chosen = tracks[(number ?? 1) - 1];
  if (chosen !== undefined && (number !== null || tracks.length === 1)) return ok(chosen);
  const title =
    number === null
      ? `the file has ${tracks.length} lines`
      : `there is no line ${number}, only ${tracks.length}`;
  const remedy = `Choose one: ${tracks.map((track, i) => `${i + 1} ${trackInWords(track)}`).join('; ')}.`;
  return fail({
    ...refuse('GPX-016', title, remedy),
    question: {
      kind: 'track',
      flag: '--track n',
      choices: tracks.map((track, i) => ({ value: String(i + 1), label: trackInWords(track) })),
    },
  });
}
