/** Of 100 modelled slips, how each ends. The five sum to 100. A comparison of modes, never a probability of an accident. */
export interface Shares {
  readonly itself: number;
  readonly ownArrest: number;
  readonly mates: number;
  readonly piece: number;
  readonly unheld: number;
}

export interface SlipShares extends Shares {
  /** Times the lead (going down: the highest) joined the slide, per 100 follower slips. */
  readonly leadPulledOff: number;
  /** Shares by who slipped, in the order on the rope. */
  readonly bySlipper: readonly Shares[];
  /** Peak load on the most loaded piece, over slips that load one; null where none does. */
  readonly pieceLoadKN: { readonly p50: number; readonly p95: number } | null;
  /**
   * Unheld with friction and pieces at the good end of what is assumed (low) and at the poor end (high); absent where it was
   * not worked out.
   */
  readonly unheldRange?: { readonly lowPct: number; readonly highPct: number };
  /** Of a running belay: the lead's slips between a stance and the first piece; absent elsewhere, or where not worked out. */
  readonly leadAboveStance?: LeadAboveStance;
}

/** Of 100 modelled slips of the lead between a stance and the first piece, how many the stance does not hold. */
export interface LeadAboveStance {
  /** On a stance of one piece. */
  readonly onePiecePct: number;
  readonly twoPiecesPct: number;
}
