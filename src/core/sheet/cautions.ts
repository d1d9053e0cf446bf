/** What decides which cautions apply. */
export interface CautionFacts {
  readonly usesCaptureDevices: boolean;
  readonly clipsPastPieces: boolean;
  readonly deviceLimit: string;
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
 * What every sheet must say, beside the elevation data with their age, cells and error. Never unclipping to help: NIOSH,
 * Fatality Assessment 98AK016 (1998). The rest is common practice and the limits of what is computed.
 */
export function cautions(facts: CautionFacts): string[] {
  return [
    'Planning aid only: no rescue or avalanche judgement; no snow bridge is said to hold. What a piece holds is an estimate: check each by hand. The run-out model ignores people and bounce.',
    'Shares compare techniques under these assumptions; they are not the probability of an accident. Crevasse falls are not in them.',
    `The snow is the user's guess, ${facts.snowMade}: test by hand, read the column of the snow found.`,
    ...(facts.usesCaptureDevices
      ? [
          `Capture devices: ${facts.deviceLimit} at most. No lead fall onto one: an ordinary piece follows soon after.`,
        ]
      : []),
    `${facts.clipsPastPieces ? 'No knots between climbers where pieces are clipped past. ' : ''}Never unclip from the rope to help (NIOSH 98AK016).`,
    [facts.turnRound, facts.clock].filter((words) => words !== '').join(' '),
  ];
}
