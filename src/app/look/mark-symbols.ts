import type { MarkKind } from '../../core/domain/mark';

/** A mark's sign in a 24 x 24 field: paths to stroke and paths to fill. */
export interface MarkSymbol {
  readonly stroke: string;
  readonly fill: string;
}

/** Drawn from what the thing looks like in section or from above. */
export const markSymbol: Readonly<Record<MarkKind, MarkSymbol>> = {
  'crevasse-crossing': { stroke: 'M5 8 9 6 13 9 19 7M5 17 10 15 14 18 19 16M12 3V21', fill: '' },
  bergschrund: { stroke: 'M4 9C8 5 16 5 20 9', fill: 'M4 13C8 9 16 9 20 13C16 17 8 17 4 13Z' },
  moat: { stroke: 'M4 18C6 8 18 8 20 18M8 18C9 13 15 13 16 18', fill: '' },
  ice: { stroke: 'M12 4 19 8V16L12 20 5 16V8ZM12 4V20M5 8 19 16M19 8 5 16', fill: '' },
  rock: { stroke: '', fill: 'M4 18 8 8 12 11 15 5 20 18Z' },
  cliff: { stroke: 'M4 7H20M7 7V18M12 7V15M17 7V18', fill: '' },
  serac: { stroke: 'M6 19 8 9 15 10 14 19ZM9 9 11 4 17 5 15 10', fill: '' },
  water: { stroke: 'M4 9C7 5 9 13 12 9S17 5 20 9M4 16C7 12 9 20 12 16S17 12 20 16', fill: '' },
  cornice: { stroke: 'M4 19 12 7H19C19 11 15 11 14 13', fill: '' },
  'no-standing': { stroke: 'M12 4A8 8 0 1 1 11.99 4M6.5 17.5 17.5 6.5', fill: '' },
  'gathering-place': {
    stroke: 'M12 3.5A8.5 8.5 0 1 1 11.99 3.5',
    fill: 'M10 9A2 2 0 1 0 14 9 2 2 0 1 0 10 9M6.8 14.5A2 2 0 1 0 10.8 14.5 2 2 0 1 0 6.8 14.5M13.2 14.5A2 2 0 1 0 17.2 14.5 2 2 0 1 0 13.2 14.5',
  },
  note: { stroke: 'M6 4H18V20H6ZM9 9H15M9 13H15', fill: '' },
};
