import type { Snow } from '../domain/snow';
import { sharesAt, unheldAt, type SlipPlace, type SlipTables } from '../slip/tables';
import type { SlipShares } from '../domain/slip-shares';

/** All that the plan asks of the slip model. */
export interface SlipLookup {
  /** Of 100 modelled slips, how many stay unheld. */
  unheldAt(place: SlipPlace): number;
  sharesAt(place: SlipPlace): SlipShares;
  /** Whether this snow can be asked about at all. */
  knows(snow: Snow): boolean;
}

export function lookupIn(tables: SlipTables): SlipLookup {
  const known = new Map<string, boolean>();
  return {
    unheldAt: (place) => unheldAt(tables, place),
    sharesAt: (place) => sharesAt(tables, place),
    knows(snow) {
      const key = `${snow.hardness} ${snow.wetness}`;
      const found = known.get(key) ?? canAnswer(tables, snow);
      known.set(key, found);
      return found;
    },
  };
}

function canAnswer(tables: SlipTables, snow: Snow): boolean {
  try {
    unheldAt(tables, { snow, variant: 'roped', slopeDeg: 0, betaDeg: 0, goingDown: false });
    return true;
  } catch (missing) {
    if (missing instanceof RangeError) return false;
    throw missing;
  }
}
