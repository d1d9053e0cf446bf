import type { LngLat } from '../../core/domain/coordinates';
import type { MarkKind } from '../../core/domain/mark';
import type { LinePoint, Project } from '../../core/domain/project';
import type { Plan } from '../../core/domain/segment';
import type { RunOutTrace } from '../../core/domain/station';
import type { Units } from '../../core/wording/units';
import type { ThemeName } from '../look/themes';
import type { Ground } from './scene';
import type { MakeTile } from './tile-source';
import type { Tool } from './tools';

/** What the rest of the page can ask of the map. */
export interface MapHandle {
  /** The map as it is shown; a PNG as a data URL. */
  readonly picture: () => Promise<string>;
  readonly take: (tool: Tool) => void;
}

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
  /** The place that was chosen: brought into view. */
  heldM: number | null;
  selectedId: number | null;
  makeTile: MakeTile;
  elevationAt: (position: LngLat) => Promise<number | null>;
  onCursor: (alongM: number | null) => void;
  /** A place on the line was clicked. */
  onPick: (alongM: number) => void;
  /** A whole new line was drawn. */
  onDrawn: (positions: readonly LngLat[]) => void;
  /** The line's points after an edit, with its name. */
  onPoints: (points: readonly LinePoint[], name: string) => void;
  onMark: (kind: MarkKind, position: LngLat) => void;
  /** A mark was clicked. */
  onMarkPick: (id: string) => void;
  /** A mark was given another place (one position) or an extent (several). */
  onMarkPlaced: (id: string, positions: readonly LngLat[]) => void;
  onStretch: (fromM: number, toM: number) => void;
  onSay: (text: string) => void;
  /** Points of a line that is only tried, such as a simplified one; null: none. */
  preview: readonly LngLat[] | null;
  /** The map stands: what can be asked of it from now on. */
  onReady: (handle: MapHandle) => void;
  /** The map cannot draw for want of graphics, and not only for a moment; or can again. */
  onDark: (isDark: boolean) => void;
  /** The planned line stands on the screen. */
  onLine: () => void;
}
