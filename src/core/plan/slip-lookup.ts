import type { Variant } from '../domain/mode';
import type { SlipShares } from '../domain/slip-shares';
import type { Snow } from '../domain/snow';

/** One place and one way to protect it. */
export interface SlipQuery {
  readonly snow: Snow;
  readonly variant: Variant;
  readonly slopeDeg: number;
  /** Angle between line and fall line, 0 to 90. */
  readonly betaDeg: number;
  readonly goingDown: boolean;
}

/** How many of 100 modelled slips stay unheld, looked up. The only thing the plan asks of the slip model. */
export interface SlipLookup {
  /** 0 to 100. */
  unheldAt(query: SlipQuery): number;
  sharesAt(query: SlipQuery): SlipShares;
}
