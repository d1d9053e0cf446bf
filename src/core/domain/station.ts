import type { LngLat } from './coordinates';
import type { Note } from './problem';
import type { HeightsFrom } from './raster';
import type { Hardness } from './snow';

export const runOutClasses = ['gentle', 'injuring', 'deadly'] as const;
export type RunOutClass = (typeof runOutClasses)[number];

/**
 * How a modelled slide from a station ends. `far`: still sliding after some kilometres, and faster than anybody survives;
 * its figures are those up to there.
 */
export type RunOutEnding = 'stops' | 'hazard' | 'drop' | 'edge' | 'hole' | 'far';

export interface RunOutTrace {
  readonly turnDeg: -15 | 0 | 15;
  readonly path: readonly LngLat[];
  readonly ending: RunOutEnding;
  /** Along the slope. */
  readonly lengthM: number;
  readonly dropM: number;
  readonly maxSpeedMS: number;
}

/** The worst of a station's traces. */
export interface RunOut {
  readonly class: RunOutClass;
  readonly ending: RunOutEnding;
  readonly maxSpeedMS: number;
  readonly lengthM: number;
  readonly dropM: number;
}

/** A place on the line, before the ground is read. */
export interface LineStation {
  /** Geodesic distance from the start of the line. */
  readonly alongM: number;
  readonly position: LngLat;
  /** Direction of travel, degrees clockwise from true north. */
  readonly bearingDeg: number;
}

/** A place on the line with what the terrain says there. null where the raster has no data. */
export interface Station extends LineStation {
  readonly elevationM: number | null;
  /** Fall-line slope by Horn's window. */
  readonly slopeDeg: number | null;
  /** Slope on which modes are decided: raw slope plus what coarse cells hide. */
  readonly designSlopeDeg: number | null;
  /** One standard deviation of the slope from the raster's vertical error. */
  readonly slopeSigmaDeg: number | null;
  /** Downhill direction, degrees clockwise from true north. */
  readonly aspectDeg: number | null;
  /** Profile curvature, 1/m, positive where the slope rolls over (convex). */
  readonly curvaturePerM: number | null;
  /** Slope along the line, signed, degrees; up is positive. */
  readonly gradeDeg: number | null;
  /** Angle between line and fall line, 0 straight up or down to 90 a traverse. */
  readonly betaDeg: number | null;
  /** By snow hardness, since friction decides how far a slide runs; null without ground data. */
  readonly runOut: Readonly<Record<Hardness, RunOut>> | null;
  /** Which raster, index into the terrain list; null: none covers it. */
  readonly rasterIndex: number | null;
}

/** Beside ground higher than this, exactly nothing is a hole filled with zeros far sooner than the sea. Judgement, metres. */
export const highGroundM = 100;

/** Code of the note on neighbouring rasters whose heights do not fit: a warning of the plan. */
export const seamCode = 'GROUND-003';

/** Code of the note on rasters over one another whose heights do not fit: a warning of the plan. */
export const overlapCode = 'GROUND-005';

/** The line with its ground read: what the plan works on. */
export interface GroundProfile {
  readonly stations: readonly Station[];
  readonly lengthM: number;
  readonly stepM: number;
  readonly terrain: readonly TerrainSummary[];
  readonly notes: readonly Note[];
}

export interface TerrainSummary {
  readonly name: string;
  readonly cellM: number;
  readonly frame: string;
  readonly surveyed: string | null;
  readonly heightsFrom: HeightsFrom;
  readonly sigmaZM: number;
  readonly encoding: string;
  readonly checksum: string | null;
}
