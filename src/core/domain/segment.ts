import type { Mode, Variant } from './mode';
import type { Hardness, Placement, Snow } from './snow';
import type { RunOutClass, Station } from './station';
import type { SlipShares } from './slip-shares';
import type { LngLat } from './coordinates';

/** A span of time: what it takes if all goes quickly, as expected, slowly. Seconds. */
export interface TimeSpan {
  readonly lowS: number;
  readonly defaultS: number;
  readonly highS: number;
}

/** What decided the mode at a station. */
export interface Decision {
  readonly mode: Mode;
  readonly variant: Variant | null;
  /** True where the guide's override decided. */
  readonly overridden: boolean;
  /** The rule that decided, in plain words with its figures. */
  readonly reason: string;
  /** Largest share unheld that may stand here; null where no shares were compared. */
  readonly tolerancePct: number | null;
  /** Variants allowed here. */
  readonly allowed: readonly Variant[];
  /** Unheld share of each variant that was looked at. */
  readonly unheldPct: Readonly<Partial<Record<Variant, number>>>;
}

export interface PlacedPiece {
  readonly alongM: number;
  readonly position: LngLat;
  readonly placement: Placement;
  readonly captureDevice: boolean;
}

export interface Gathering {
  readonly alongM: number;
  readonly position: LngLat;
  readonly pieces: number;
  readonly reason: string;
}

/** What would change a segment's mode: the nearest change of one input, and the mode it would give. */
export interface Flip {
  readonly input: 'hardness' | 'slope' | 'ability' | 'tolerance' | 'run-out';
  readonly from: string;
  readonly to: string;
  readonly mode: Mode;
}

/** Where a segment's mode was decided, and on what. */
export interface DecidingPlace {
  readonly alongM: number;
  readonly designSlopeDeg: number | null;
  readonly runOut: RunOutClass;
  /** Largest share unheld that may stand; null where no shares were compared. */
  readonly tolerancePct: number | null;
}

export interface Segment {
  readonly id: number;
  readonly fromM: number;
  readonly toM: number;
  readonly lengthM: number;
  readonly ascentM: number | null;
  readonly descentM: number | null;
  readonly slopeMeanDeg: number | null;
  readonly slopeMaxDeg: number | null;
  /** Steepest design slope: what the mode was decided on. */
  readonly designSlopeMaxDeg: number | null;
  readonly aspectDeg: number | null;
  /** The worst in the segment. */
  readonly runOut: RunOutClass | null;
  readonly snow: Snow;
  /** Reached after the snow is expected to have changed: decided again with that snow. */
  readonly snowChanged: boolean;
  readonly goingDown: boolean;
  readonly mode: Mode;
  readonly variant: Variant | null;
  readonly overridden: boolean;
  readonly reasons: readonly string[];
  /** The station that asks for most protection: reasons, flips and shares are its. */
  readonly decidedAt: DecidingPlace;
  readonly flips: readonly Flip[];
  /** Shares of each variant where the segment was decided, for the slip card. */
  readonly shares: Readonly<Partial<Record<Variant, SlipShares>>>;
  /** Includes the transition into it and its gatherings; null: no time can be given. */
  readonly time: TimeSpan | null;
  readonly parts: TimeParts | null;
  readonly pieces: readonly PlacedPiece[];
  readonly gatherings: readonly Gathering[];
  readonly rotations: number;
  readonly pitches: number;
  /** Clock times, ISO with offset; null without a start or beyond what is computed. */
  readonly arrive: string | null;
  readonly leave: string | null;
  readonly note: string;
}

/** Default seconds by what they are spent on; they sum to time.defaultS. */
export interface TimeParts {
  readonly walkingS: number;
  readonly placementS: number;
  readonly gatheringS: number;
  readonly pitchingS: number;
  readonly crossingS: number;
  readonly transitionS: number;
}

export interface Totals {
  readonly lengthM: number;
  readonly ascentM: number | null;
  readonly descentM: number | null;
  /** Up to where times could be computed; null where all could. */
  readonly notComputedBeyondM: number | null;
  readonly time: TimeSpan;
  readonly parts: TimeParts;
  readonly byMode: Readonly<Record<Mode, { readonly lengthM: number; readonly timeS: number | null }>>;
  readonly gatherings: number;
  readonly rotations: number;
  readonly pitches: number;
  readonly crossings: number;
  /** Pieces placed over the whole line. */
  readonly pieces: number;
  /** The most pickets any stretch needs at one time. */
  readonly pickets: number;
  readonly captureDevices: number;
  readonly arrive: string | null;
  readonly turnRound: string | null;
}

/** Leads to the place it speaks of. Heavier first. */
export interface Warning {
  readonly code: string;
  readonly weight: 1 | 2 | 3;
  readonly text: string;
  readonly fromM: number | null;
  readonly toM: number | null;
}

export interface Plan {
  readonly stations: readonly Station[];
  /** One for each station, in step with `stations`. */
  readonly decisions: readonly Decision[];
  readonly segments: readonly Segment[];
  readonly totals: Totals;
  readonly warnings: readonly Warning[];
  /** The way back, with its own order, snow and modes; its distances run from its own start. null: not planned. */
  readonly wayBack: Plan | null;
  /** The slip tables were coarse: a finer answer follows. */
  readonly settling: boolean;
}

/** One segment of the present plan under another snow. */
export interface MatrixCell {
  readonly segmentId: number;
  /** The most protective mode anywhere in the segment, and its variant. */
  readonly mode: Mode;
  readonly variant: Variant | null;
  /** Where the modes change within the segment; one part if they don't. */
  readonly parts: readonly {
    readonly fromM: number;
    readonly toM: number;
    readonly mode: Mode;
    readonly variant: Variant | null;
  }[];
}

/** The whole line planned again under one hardness, with or without capture devices. */
export interface MatrixColumn {
  readonly hardness: Hardness;
  readonly captureDevices: boolean;
  readonly cells: readonly MatrixCell[];
  readonly totals: Totals;
}

/** The mode of every segment under every hardness, so that the sheet survives other snow than planned. */
export interface ConditionMatrix {
  readonly columns: readonly MatrixColumn[];
}
