import type { LngLat } from './coordinates';
import type { Mark } from './mark';
import type { Mode } from './mode';
import type { Party } from './rope-team';
import type { RunOutClass } from './station';
import type { Snow } from './snow';

export interface LinePoint {
  readonly position: LngLat;
  /** The track's own elevation and time, kept for export and for "afterwards"; never mixed with the raster's. */
  readonly elevationM: number | null;
  readonly timeMs: number | null;
}

export interface Line {
  readonly id: string;
  readonly name: string;
  readonly points: readonly LinePoint[];
}

/** Which way of the day something holds for. */
export const overrideWays = ['both', 'there', 'back'] as const;
export type OverrideWay = (typeof overrideWays)[number];

/** A stretch of the line on which the guide knows better. null: not overridden. */
export interface Override {
  readonly id: string;
  /**
   * `both`: there, and back by the same line. `back` is measured along the same line as the others, or from where the way back
   * by another line begins.
   */
  readonly way: OverrideWay;
  readonly fromM: number;
  readonly toM: number;
  readonly mode: Mode | null;
  readonly snow: Snow | null;
  readonly runOut: RunOutClass | null;
  readonly note: string;
}

/** Largest share of 100 modelled slips that may stay unheld, by run-out class (judgement). */
export interface Tolerance {
  readonly gentlePct: number;
  readonly injuringPct: number;
  readonly deadlyPct: number;
}

/** Snow that changes through the day: from this local time on, on this stretch. */
export interface SnowChange {
  readonly fromM: number;
  readonly toM: number;
  /** Local time, HH:MM. */
  readonly at: string;
  readonly snow: Snow;
}

export interface Schedule {
  /** Local date and time, `2026-05-14T04:30`; null: no clock. */
  readonly start: string | null;
  /** IANA zone. */
  readonly zone: string;
  /** Local date and time to be back by; null: not said. */
  readonly backBy: string | null;
  readonly snowChanges: readonly SnowChange[];
  /** How the team comes back. */
  readonly wayBack: 'none' | 'same-line' | { readonly alternativeId: string };
  /** From true to magnetic north, degrees, east positive, as the guide has it; null: from the model kept with the program. */
  readonly declinationDeg: number | null;
}

export interface TerrainRef {
  readonly fileName: string;
  readonly checksum: string | null;
  /** Assigned by hand where the file is silent. */
  readonly crs: string | null;
  readonly elevationUnit: 'm' | 'ft' | 'usft' | 'cm' | null;
  readonly surveyed: string | null;
  readonly sigmaZM: number | null;
}

export interface GradePace {
  readonly fromDeg: number;
  readonly toDeg: number;
  readonly factor: number;
}

/** The team's own factors, learnt from recorded days. */
export interface OwnPace {
  readonly walkingFactor: number;
  /** In its place where the way rises or falls by these degrees. */
  readonly walkingByGrade: readonly GradePace[];
  readonly placementFactor: number;
}

/** Least and most of a factor: what the form takes, and how far a project file may go. */
export const paceFactorLimits = { form: [0.3, 5], file: [0.1, 10] } as const;

export interface Project {
  readonly name: string;
  readonly line: Line;
  readonly alternatives: readonly Line[];
  readonly marks: readonly Mark[];
  readonly overrides: readonly Override[];
  readonly party: Party;
  readonly snow: Snow;
  readonly tolerance: Tolerance;
  /** Only what differs from the defaults, by the assumption's key. */
  readonly assumptions: Readonly<Record<string, number>>;
  readonly schedule: Schedule;
  readonly terrain: readonly TerrainRef[];
  readonly ownPace: OwnPace;
  readonly walkingRule: 'munter' | 'tobler' | 'din-33466';
  /** The last climber takes the lead at each gathering, where allowed. */
  readonly lastTakesLead: boolean;
  /** On the way down: the team turns round, strongest last and highest. */
  readonly turnsRoundGoingDown: boolean;
  readonly onGlacier: boolean;
  readonly notes: string;
}

export const defaultTolerance: Tolerance = { gentlePct: 100, injuringPct: 40, deadlyPct: 15 };
