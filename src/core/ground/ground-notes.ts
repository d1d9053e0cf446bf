import type { Cancel } from '../domain/cancel';
import type { Note } from '../domain/problem';
import type { Station } from '../domain/station';
import { overlaps, seams } from './raster-agreement';
import type { Terrain } from './terrain';
import { lengthWhere } from './length-where';

/** What the reader of a profile should know about the ground behind it. */
export async function groundNotes(
  stations: readonly Station[],
  terrain: Terrain,
  seamJumpM: number,
  cancel?: Cancel,
): Promise<Note[]> {
  return [
    ...coverage(stations),
    ...(await seams(stations, terrain, seamJumpM, cancel)),
    ...(await overlaps(stations, terrain, seamJumpM, cancel)),
  ];
}

function coverage(stations: readonly Station[]): Note[] {
  const missingM = lengthWhere(stations, (i) => stations[i]!.slopeDeg === null);
  const lengthM = stations.at(-1)?.alongM ?? 0;
  if (missingM <= 0) return [];
  const text = `${km(missingM)} of ${km(lengthM)} km have no ground data`;
  return [{ code: 'GROUND-002', subject: 'line', text }];
}

const km = (metres: number): string => (metres / 1000).toFixed(metres < 100 ? 3 : 1);
