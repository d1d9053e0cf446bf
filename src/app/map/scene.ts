import type { LngLat } from '../../core/domain/coordinates';
import type { Project } from '../../core/domain/project';
import type { Plan } from '../../core/domain/segment';
import type { RunOutTrace } from '../../core/domain/station';
import type { Units } from '../../core/wording/units';

/** An open raster as the map shows it. */
export interface Ground {
  readonly key: string;
  readonly cellM: number;
  readonly outline: readonly LngLat[];
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
}

/** Everything the map draws from, in one value. */
export interface Scene {
  readonly plan: Plan | null;
  readonly project: Project;
  readonly grounds: readonly Ground[];
  readonly traces: readonly RunOutTrace[];
  readonly selectedId: number | null;
  readonly units: Units;
  /** A line that is only tried. */
  readonly preview: readonly LngLat[] | null;
  /** The stretch that is being set, metres along the line. */
  readonly stretch: readonly [fromM: number, toM: number] | null;
  /** Where this device is; null: not asked, not known. */
  readonly here: LngLat | null;
}

/** The longitude by whole turns nearest to the one before. */
export const follows = (lngDeg: number, beforeDeg: number): number =>
  lngDeg + 360 * Math.round((beforeDeg - lngDeg) / 360);

/** Longitudes that follow one another without a jump, so that a line across the 180th meridian is drawn the short way. */
export function unwrapped(positions: readonly LngLat[], nearDeg?: number): [number, number][] {
  let before = nearDeg ?? positions[0]?.[0] ?? 0;
  return positions.map(([lngDeg, latDeg]) => {
    before = follows(lngDeg, before);
    return [before, latDeg];
  });
}
