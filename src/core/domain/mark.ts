import type { LngLat } from './coordinates';

export const markKinds = [
  'crevasse-crossing',
  'bergschrund',
  'moat',
  'ice',
  'rock',
  'cliff',
  'serac',
  'water',
  'cornice',
  'no-standing',
  'gathering-place',
  'note',
] as const;
export type MarkKind = (typeof markKinds)[number];

export const markName: Readonly<Record<MarkKind, string>> = {
  'crevasse-crossing': 'crevasse crossing',
  bergschrund: 'bergschrund',
  moat: 'moat',
  ice: 'ice',
  rock: 'rock',
  cliff: 'cliff',
  serac: 'serac',
  water: 'water',
  cornice: 'cornice',
  'no-standing': 'no standing',
  'gathering-place': 'good gathering place',
  note: 'note',
};

/** Marks that end a slide badly, wherever they lie. */
export const hazardKinds: ReadonlySet<MarkKind> = new Set([
  'crevasse-crossing',
  'bergschrund',
  'moat',
  'rock',
  'cliff',
  'serac',
  'water',
  'cornice',
] as const);

/** What a person saw and no raster knows, on the line or beside it. */
export interface Mark {
  readonly id: string;
  readonly kind: MarkKind;
  /** One position: a point. Several: a drawn extent (open line; closed if first and last are the same). */
  readonly positions: readonly LngLat[];
  /** Width along the line, for a crossing (the crevasse with its doubtful edges), ice or rock. null: not said. */
  readonly widthM: number | null;
  readonly bridge: 'solid' | 'doubtful' | 'poor' | null;
  /** ISO date on which it was seen; null: not said. */
  readonly seenOn: string | null;
  readonly note: string;
}
