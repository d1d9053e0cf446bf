import type { Figures } from '../assumptions/figures';
import type { Mode, Variant } from '../domain/mode';
import type { OwnPace, Project } from '../domain/project';
import type { Party } from '../domain/rope-team';
import type { Gathering, PlacedPiece, TimeParts, TimeSpan } from '../domain/segment';
import type { Snow } from '../domain/snow';
import type { RunOutClass, Station } from '../domain/station';
import type { PaceEvent } from './pace-event';

/** A stretch of one mode, snow and direction. */
export interface StretchInput {
  readonly mode: Mode;
  readonly variant: Variant | null;
  /** Of the whole line, in the order in which they are walked. Best the same array for every stretch: what is read off it is kept. */
  readonly stations: readonly Station[];
  readonly fromM: number;
  readonly toM: number;
  /** In the order on the rope for this stretch, lead first. */
  readonly party: Party;
  readonly figures: Figures;
  readonly snow: Snow;
  readonly own?: OwnPace;
  readonly walkingRule?: Project['walkingRule'];
  readonly lastTakesLead?: boolean;
  /** Distances along the line where a mark forbids standing, or recommends it. */
  standForbidden?(alongM: number): boolean;
  goodPlace?(alongM: number): boolean;
  /** Run-out with the guide's overrides; by default the stations' own for this snow. */
  runOutAt?(alongM: number): RunOutClass | null;
  /** From `transitionSpan`: the change into this stretch. */
  readonly transition?: TimeSpan;
  /** Also return the log of events, for playing. */
  readonly withEvents?: boolean;
}

export interface StretchPace {
  /** null where no time can be given: none holds, no ground data, unknown elevation, no piece that holds, too few pieces. */
  readonly time: TimeSpan | null;
  readonly parts: TimeParts | null;
  readonly pieces: readonly PlacedPiece[];
  /** Where the whole team stands together: gatherings of a running belay, stances of a pitched one. The end is the last. */
  readonly gatherings: readonly StretchGathering[];
  readonly rotations: number;
  readonly pitches: number;
  readonly crossings: number;
  readonly stops: number;
  /** The most pieces in use at one time. */
  readonly pickets: number;
  /** With distances along the slope from the stretch's start; empty unless asked for. */
  readonly events: readonly PaceEvent[];
}

export interface StretchGathering extends Gathering {
  /** Below the place; null: unknown. */
  readonly runOut: RunOutClass | null;
  readonly bad: boolean;
  /** The least exposed place within reach, and the seconds more it costs. */
  readonly better: { readonly alongM: number; readonly extraS: number } | null;
}

export const noParts: TimeParts = {
  walkingS: 0,
  placementS: 0,
  gatheringS: 0,
  pitchingS: 0,
  crossingS: 0,
  transitionS: 0,
};

export const withoutTime: StretchPace = {
  time: null,
  parts: null,
  pieces: [],
  gatherings: [],
  rotations: 0,
  pitches: 0,
  crossings: 0,
  stops: 0,
  pickets: 0,
  events: [],
};
