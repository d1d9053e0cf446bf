import type { Mode } from '../domain/mode';
import type { MarkupElement } from './markup';
import type { Whiteout } from './whiteout';

/** A label and what it says. */
export interface Fact {
  readonly label: string;
  readonly text: string;
}

/** A time of the day, to be read at a glance. */
export interface SheetClock {
  readonly label: string;
  /** Local; null: not known, room to write it. */
  readonly time: string | null;
  /** The same in UTC, or why there is none. */
  readonly more: string;
}

/** A place to find again. */
export interface SheetPlace {
  readonly name: string;
  readonly along: string;
  readonly decimalDegrees: string;
  /** `—` where the grid does not reach. */
  readonly mgrs: string;
  readonly more: string;
}

/** One line of the segment table. */
export interface SheetRow {
  readonly number: string;
  readonly mode: Mode;
  readonly from: string;
  /** Height of its start, for the altimeter. */
  readonly fromHeight: string;
  /** Latitude and longitude of its start, decimal degrees. */
  readonly fromPosition: readonly [latitude: string, longitude: string];
  /** A mark near its start; empty if none. */
  readonly landmark: string;
  /** What was seen of a crossing; empty where it is none, or where the way there says it. */
  readonly seen: string;
  readonly length: string;
  readonly rise: string;
  /** Steepest and facing, the run-out's class; the unknown once where all of it is. */
  readonly slope: string;
  readonly modeName: string;
  /** Placement and spacing, pitches, who chose it. */
  readonly manner: readonly string[];
  readonly snow: string;
  /** The snow is another than the one that is planned for. */
  readonly isOtherSnow: boolean;
  /** Empty if none. */
  readonly gatherings: string;
  readonly time: string;
  readonly range: string;
  readonly clock: string;
  readonly note: string;
  readonly brief: BriefRow;
}

/** A row's figures where the column's head says what they are and in which unit. */
export interface BriefRow {
  readonly from: string;
  readonly fromHeight: string;
  /** Grid place of its start, to 10 m; with its square where the way lies in several, a dash where the grid does not reach. */
  readonly grid: string;
  readonly length: string;
  readonly rise: string;
  readonly slope: string;
  readonly runOut: string;
  /** Letters of technique and variant. */
  readonly code: string;
  readonly manner: readonly string[];
  /** How many; where they are is said with the places to be found at. */
  readonly gatherings: string;
  readonly minutes: string;
  readonly minutesRange: string;
}

/** The line there, or the way back. */
export interface SheetWay {
  readonly title: string;
  /** Time with its range; length and rise; gear and stops. */
  readonly summary: readonly string[];
  /** What the time goes to; acts that don't occur are left out. */
  readonly hours: readonly Fact[];
  readonly rows: readonly SheetRow[];
  /** Square of 100 km in which the whole way lies; null: in several, or beyond the grid. */
  readonly square: string | null;
  /** null: the ground is that of the way there, which is drawn. */
  readonly drawn: { readonly map: MarkupElement; readonly ribbon: MarkupElement } | null;
  /** The same as narrow as a pocket's page; absent where there is no line to draw. */
  readonly pocketMap: MarkupElement | null;
  /** null: not computed. */
  readonly matrix: SheetMatrix | null;
  readonly whiteout: Whiteout;
  readonly places: readonly SheetPlace[];
}

export interface SheetMatrix {
  readonly columns: readonly {
    readonly symbol: string;
    readonly hardness: string;
    readonly isPlanned: boolean;
  }[];
  readonly rows: readonly { readonly number: string; readonly cells: readonly string[] }[];
  readonly totals: readonly string[];
}

export interface SheetWarning {
  readonly weight: 1 | 2 | 3;
  readonly text: string;
  /** Empty where it holds for all. */
  readonly place: string;
  /** Not said elsewhere on the sheet's front, and heavy enough for it. */
  readonly isFront: boolean;
}

/** Everything the printed sheet says, in words and figures ready to print. */
export interface SheetData {
  readonly title: string;
  readonly lineName: string;
  /** Whose local times these are; empty where there are none. */
  readonly zone: string;
  /** When it was made, local and UTC; empty if not said. */
  readonly made: string;
  /** Tells the sheets of two states of a project apart: eight letters and digits. */
  readonly state: string;
  readonly clock: readonly SheetClock[];
  readonly units: { readonly long: string; readonly short: string };
  readonly warnings: readonly SheetWarning[];
  readonly ways: readonly SheetWay[];
  readonly team: readonly Fact[];
  readonly crossings: readonly SheetPlace[];
  /** Gathering places and stances of all ways, each place once. */
  readonly places: readonly SheetPlace[];
  readonly declination: string;
  readonly sources: readonly Fact[];
  readonly assumptions: readonly string[];
  readonly ownNotes: string;
  readonly cautions: readonly string[];
  readonly signals: readonly string[];
  readonly rescueNumbers: readonly string[];
}
