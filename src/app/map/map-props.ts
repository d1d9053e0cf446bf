import type { LngLat } from '../../core/domain/coordinates';
import type { MarkKind } from '../../core/domain/mark';
import type { LinePoint, Project } from '../../core/domain/project';
import type { Plan } from '../../core/domain/segment';
import type { RunOutTrace } from '../../core/domain/station';
import type { Units } from '../../core/wording/units';
import type { ThemeName } from '../look/themes';
import type { Ground } from './scene';
import type { MakeTile } from './tile-source';

/** What the map is told, and what it tells. */
export interface MapProps {
  project: Project;
  plan: Plan | null;
  grounds: readonly Ground[];
  /** Changes where tiles made so far are to be made again. */
  tilesKey: unknown;
  traces: readonly RunOutTrace[];
  theme: ThemeName;
  units: Units;
  cursorM: number | null;
  selectedId: number | null;
  makeTile: MakeTile;
  elevationAt: (position: LngLat) => Promise<number | null>;
  onCursor: (alongM: number | null) => void;
  /** A place on the line was clicked. */
  onPick: (alongM: number, position: LngLat) => void;
  /** A whole new line was drawn. */
  onDrawn: (positions: readonly LngLat[]) => void;
  /** The line's points after an edit, with its name. */
  onPoints: (points: readonly LinePoint[], name: string) => void;
  onMark: (kind: MarkKind, position: LngLat) => void;
  onStretch: (fromM: number, toM: number) => void;
  onSay: (text: string) => void;
  /** Hands out the way to take a picture of the map as it is shown; a PNG as a data URL. */
  onPicture: (take: () => Promise<string>) => void;
}
