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
}

/** The line there, or the way back. */
export interface SheetWay {
  readonly title: string;
  readonly rows: readonly SheetRow[];
  readonly ribbon: MarkupElement;
  readonly map: SheetMap;
  /** The same as narrow as a pocket's page; absent where there is no line to draw. */
  readonly pocketMap: MarkupElement | null;
  /** null: not computed. */
  readonly matrix: SheetMatrix | null;
  readonly whiteout: Whiteout;
  readonly places: readonly SheetPlace[];
}

export interface SheetMap {
  readonly drawing: MarkupElement;
  /** Half the paper's width: text finds room beside it. */
  readonly isNarrow: boolean;
}

export interface SheetMatrix {
  readonly columns: readonly { readonly hardness: string; readonly isPlanned: boolean }[];
  readonly rows: readonly { readonly number: string; readonly cells: readonly string[] }[];
  readonly totals: readonly string[];
  readonly key: string;
}

/** Everything the printed sheet says, in words and figures ready to print. */
export interface SheetData {
  readonly title: string;
  readonly lineName: string;
  /** When it was made, local and UTC; empty if not said. */
  readonly made: string;
  /** Tells the sheets of two states of a project apart: eight letters and digits. */
  readonly state: string;
  readonly headline: string;
  readonly headlineNote: string;
  readonly clock: readonly SheetClock[];
  readonly totals: readonly Fact[];
  readonly warnings: readonly { readonly weight: 1 | 2 | 3; readonly text: string; readonly place: string }[];
  readonly ways: readonly SheetWay[];
  readonly team: readonly Fact[];
  readonly crossings: readonly SheetPlace[];
  readonly declination: string;
  readonly sources: readonly Fact[];
  readonly assumptions: readonly string[];
  readonly ownNotes: string;
  readonly cautions: readonly string[];
  readonly signals: readonly string[];
  readonly rescueNumbers: readonly string[];
}
