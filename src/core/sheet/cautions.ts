/** What decides which cautions apply. */
export interface CautionFacts {
  readonly usesCaptureDevices: boolean;
  readonly clipsPastPieces: boolean;
  readonly deviceLimit: string;
  /** One line per elevation source, in words: name, cell, year, slope error. */
  readonly terrain: readonly string[];
  /** When the snow class was put in, in words. */
  readonly snowMade: string;
  readonly turnRound: string;
  readonly clock: string;
}

/** Repeated at the foot of every page. */
export const shortCaution =
  'Planning aid only: no rescue or avalanche judgement. Check every piece by hand. Judge on the spot.';

/** The same where a page is a pocket wide. */
export const pocketCaution = 'Planning aid only. Check every piece by hand.';

/**
 * What every sheet must say. Never unclipping to help: NIOSH, Fatality Assessment 98AK016 (1998). The rest is common
 * practice and the limits of what is computed.
 */
export function cautions(facts: CautionFacts): string[] {
  return [
    'Planning aid only. It is no rescue judgement and no avalanche judgement, and it says of no snow bridge that it holds.',
    'The shares compare techniques under the assumptions listed here. They are not the probability of an accident. Falls into crevasses are not in them.',
    ...facts.terrain,
    `The snow class is the user's guess, ${facts.snowMade}. Test it by hand on the spot and read the column of the snow that is there.`,
    'What a piece holds is an estimate. Check every piece by hand.',
    'The run-out is a sliding block on bare data: it knows no people, no bouncing, no cartwheeling.',
    ...(facts.usesCaptureDevices
      ? [
          `Capture devices: ${facts.deviceLimit} at most. No lead fall onto a device: an ordinary piece follows soon after.`,
        ]
      : []),
    ...(facts.clipsPastPieces
      ? ['No knots between climbers where pieces are clipped past: a knot does not pass a piece or a device.']
      : []),
    'Never unclip from the rope to help (NIOSH 98AK016).',
    facts.turnRound,
    facts.clock,
  ];
}
