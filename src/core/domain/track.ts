import type { LngLat } from './coordinates';
import type { Mark } from './mark';
import type { Note } from './problem';

export interface TrackPoint {
  readonly position: LngLat;
  /** As the file says; height reference unknown. Never mixed with the raster's. */
  readonly elevationM: number | null;
  /** Milliseconds since 1970-01-01T00:00Z; null where the file has none or no zone. */
  readonly timeMs: number | null;
  /** What other makers wrote into the point: XML that stands on its own, kept for writing it back. */
  readonly extensions?: string;
}

/** One line a file offers. Parts are kept apart where the file has gaps. */
export interface Track {
  readonly name: string;
  readonly kind: 'track' | 'route' | 'line';
  readonly parts: readonly (readonly TrackPoint[])[];
}

/** What we wrote of a mark, beside its place and note. */
export type MarkSeen = Pick<Mark, 'id' | 'kind' | 'widthM' | 'bridge' | 'seenOn'>;

export interface Waypoint {
  readonly name: string;
  readonly note: string;
  readonly symbol: string;
  readonly position: LngLat;
  readonly elevationM: number | null;
  /** Only in files of ours. */
  readonly mark?: MarkSeen;
}

/** All that a track file holds. */
export interface TrackFile {
  readonly fileName: string;
  readonly tracks: readonly Track[];
  readonly waypoints: readonly Waypoint[];
  readonly notes: readonly Note[];
}
