import type { Mode } from '../domain/mode';
import type { MarkupElement } from './markup';
import type { Whiteout } from './whiteout';

/** A label and what it says. */
export interface Fact {
  readonly label: string;
  readonly text: string;
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
  /** Latitude and longitude of its start, decimal degrees. */
  readonly fromPosition: readonly [latitude: string, longitude: string];
  /** A mark near its start; empty if none. */
  readonly landmark: string;
  readonly length: string;
  readonly rise: string;
  readonly steepest: string;
  readonly facing: string;
  readonly modeName: string;
  /** Placement and spacing, pitches, who chose it; each a line. */
  readonly manner: readonly string[];
  readonly snow: string;
  readonly runOut: string;
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
  readonly map: MarkupElement;
  readonly whiteout: Whiteout;
}

export interface SheetMatrix {
  readonly columns: readonly {
    readonly hardness: string;
    readonly devices: boolean;
    readonly isPlanned: boolean;
  }[];
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
  readonly headline: string;
  readonly headlineNote: string;
  readonly totals: readonly Fact[];
  readonly warnings: readonly { readonly weight: 1 | 2 | 3; readonly text: string; readonly place: string }[];
  readonly ways: readonly SheetWay[];
  readonly matrix: SheetMatrix | null;
  readonly team: readonly Fact[];
  readonly crossings: readonly SheetPlace[];
  readonly places: readonly SheetPlace[];
  readonly declination: string;
  readonly sources: readonly Fact[];
  readonly assumptions: readonly string[];
  readonly ownNotes: string;
  readonly cautions: readonly string[];
  readonly signals: readonly string[];
  readonly rescueNumbers: readonly string[];
}
