import type { Track, TrackPoint } from '../domain/track';
import { distanceM } from '../line/geodesic';
import type { Answers, Refuser } from './refusal';

const isZero = ({ position }: TrackPoint): boolean => position[0] === 0 && position[1] === 0;
const farFromZeroM = 100_000;
const listed = 20;

/** Receivers without a fix write 0, 0. Where such points stand in a track that runs elsewhere, nobody but the user can say. */
export function zeroFixQuestion(
  tracks: readonly Track[],
  refuser: Refuser,
  answers: Answers,
): readonly Track[] {
  const suspects = tracks.flatMap((track, t) => suspectsOf(track, t, tracks.length));
  if (suspects.length === 0) return tracks;
  const answer = answers[`${refuser.letters}-025`];
  if (answer === 'keep') return tracks;
  if (answer === 'drop') return tracks.map(withoutZeros);
  const rest = suspects.length > listed ? ` and ${suspects.length - listed} more` : '';
  return refuser.refuse(
    '025',
    suspects.slice(0, listed).join('; ') + rest,
    suspects.length === 1
      ? '1 point at 0, 0 looks like a missing fix'
      : `${suspects.length} points at 0, 0 look like missing fixes`,
    'Say whether to drop them.',
    {
      kind: 'yes-no',
      choices: [
        { value: 'drop', label: 'Drop them' },
        { value: 'keep', label: 'Keep them: the track really goes there' },
      ],
    },
  );
}

function suspectsOf(track: Track, t: number, trackCount: number): string[] {
  if (!runsElsewhere(track)) return [];
  return track.parts.flatMap((part, p) =>
    part.flatMap((point, i) =>
      isZero(point) ? [`${trackCount > 1 ? `track ${t + 1}, ` : ''}part ${p + 1}, point ${i + 1}`] : [],
    ),
  );
}

function withoutZeros(track: Track): Track {
  if (!runsElsewhere(track)) return track;
  const parts = track.parts.map((part) => part.filter((point) => !isZero(point)));
  return { ...track, parts: parts.filter((part) => part.length > 0) };
}

function runsElsewhere(track: Track): boolean {
  const real = track.parts.flat().find((point) => !isZero(point));
  return real !== undefined && distanceM([0, 0], real.position) >= farFromZeroM;
}
