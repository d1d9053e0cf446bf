import { countText } from '../wording/numbers';
import type { Note } from '../domain/problem';
import type { Track, TrackPoint, Waypoint } from '../domain/track';
import { distanceM } from '../line/geodesic';
import { jumpsOf } from '../line/jumps';
import type { Refuser } from './refusal';

/** What the points of a file had that a note must tell of. */
export interface PointTally {
  points: number;
  timesWithoutZone: number;
  timesUnreadable: number;
  timesWithSpace: number;
  /** Points whose extensions are not kept. */
  extensions: number;
  emptyParts: number;
  /** Places and lines of a written plan, which are planned anew. */
  planned: number;
}

const gapM = 1;
const longNameChars = 200;
/** Places of one kind that are told one by one. */
const listed = 5;

/** Notes how many of something there are, where there are any. */
type Count = (number: string, n: number, one: string, many: string) => void;

/** What an opened file's owner should know: nothing here stopped it. */
export function trackNotes(
  tracks: readonly Track[],
  waypoints: readonly Waypoint[],
  tally: PointTally,
  refuser: Refuser,
): Note[] {
  const notes: Note[] = [];
  const note = (number: string, text: string) =>
    notes.push({ code: `${refuser.letters}-${number}`, subject: refuser.subject, text });
  const count: Count = (number, n, one, many) => {
    if (n > 0) note(number, countText(n, one, many));
  };

  if (tracks.length === 0) note('015', `${countText(waypoints.length, 'waypoint')}, no line`);
  if (tracks.length > 1)
    note('016', `${tracks.length} lines in one file: ${tracks.map(trackInWords).join('; ')}`);
  const several = (number: string, what: string, texts: readonly string[]) => {
    for (const text of texts.slice(0, listed)) note(number, text);
    if (texts.length > listed) note(number, `${texts.length - listed} more ${what}`);
  };
  tracks.forEach((track, t) => {
    const where = tracks.length > 1 ? `line ${t + 1}: ` : '';
    several(
      '017',
      'gaps',
      gaps(track).map((text) => where + text),
    );
  });
  const parts = tracks.flatMap((track) => track.parts);
  const points = parts.flat();
  count('018', tally.emptyParts, 'empty segment left out', 'empty segments left out');
  count(
    '018',
    parts.filter((part) => part.length === 1).length,
    'segment of one point',
    'segments of one point',
  );
  count('026', repeated(parts), 'point repeats the one before', 'points repeat the one before');
  several('027', 'jumps', jumps(tracks));

  const withElevation = points.filter((point) => point.elevationM !== null).length;
  const missing = points.length - withElevation;
  if (withElevation > 0 && missing > 0)
    note('028', `elevation missing on ${missing} of ${points.length} points: unknown there`);
  timeNotes(points, tally, count);
  const long = [...tracks, ...waypoints].filter(({ name }) => name.length > longNameChars).length;
  const tooLong = `longer than ${longNameChars} characters`;
  count('036', long, `name ${tooLong}`, `names ${tooLong}`);
  count(
    '045',
    tally.planned,
    'place or segment of a written plan left out: it is planned anew',
    'places and segments of a written plan left out: they are planned anew',
  );
  count(
    '037',
    tally.extensions,
    'point has extensions that are not kept: too long, without a namespace, or on a waypoint',
    'points have extensions that are not kept: too long, without a namespace, or on a waypoint',
  );
  return notes;
}

function timeNotes(points: readonly TrackPoint[], tally: PointTally, count: Count): void {
  const times = points.flatMap(({ timeMs }) => (timeMs === null ? [] : [timeMs]));
  if (times.length > 0) {
    const ofAll = `of ${points.length} points`;
    count('032', points.length - times.length, `${ofAll} has no time`, `${ofAll} have no time`);
  }
  let backwards = 0;
  let same = 0;
  times.forEach((timeMs, i) => {
    const before = times[i - 1] ?? -Infinity;
    if (timeMs < before) backwards += 1;
    if (timeMs === before) same += 1;
  });
  count('032', backwards, 'time runs backwards', 'times run backwards');
  count('032', same, 'time is the same as the one before', 'times are the same as the one before');
  count(
    '032',
    tally.timesUnreadable,
    'time cannot be read: treated as unknown',
    'times cannot be read: treated as unknown',
  );
  count(
    '033',
    tally.timesWithoutZone,
    'time without zone: treated as unknown',
    'times without zone: treated as unknown',
  );
  count(
    '033',
    tally.timesWithSpace,
    'time written with a space instead of T',
    'times written with a space instead of T',
  );
}

/** A line as a choice: its name, length and number of points. */
export function trackInWords(track: Track): string {
  const points = track.parts.reduce((sum, part) => sum + part.length, 0);
  const name = track.name === '' ? track.kind : `"${track.name.slice(0, 60)}"`;
  return `${name}, ${lengthInWords(trackLengthM(track))}, ${countText(points, 'point')}`;
}

/** Length of a track without the gaps between its parts. */
export function trackLengthM(track: Track): number {
  let sumM = 0;
  for (const part of track.parts)
    part.forEach(({ position }, i) => {
      const before = part[i - 1];
      if (before !== undefined) sumM += distanceM(before.position, position);
    });
  return sumM;
}

export const lengthInWords = (lengthM: number): string =>
  lengthM < 1000 ? `${lengthM.toFixed(0)} m` : `${(lengthM / 1000).toFixed(1)} km`;

function gaps(track: Track): string[] {
  return track.parts.flatMap((part, i) => {
    const [end, start] = [track.parts[i - 1]?.at(-1), part[0]];
    if (end === undefined || start === undefined) return [];
    const lengthM = distanceM(end.position, start.position);
    return lengthM < gapM ? [] : [`gap of ${lengthInWords(lengthM)} between segment ${i} and ${i + 1}`];
  });
}

function repeated(parts: readonly (readonly TrackPoint[])[]): number {
  let n = 0;
  for (const part of parts)
    part.forEach(({ position }, i) => {
      const before = part[i - 1]?.position;
      if (before !== undefined && before[0] === position[0] && before[1] === position[1]) n += 1;
    });
  return n;
}

function jumps(tracks: readonly Track[]): string[] {
  return tracks.flatMap((track, t) =>
    track.parts.flatMap((part, p) =>
      jumpsOf(part).map(({ index, lengthM }) => {
        const where = `line ${t + 1}, part ${p + 1}, point ${index} to ${index + 1}`;
        return `jump of ${lengthInWords(lengthM)} between two points (${where})`;
      }),
    ),
  );
}
