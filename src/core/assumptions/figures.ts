import type { Ability } from '../domain/rope-team';
import type { Hardness, Placement, Wetness } from '../domain/snow';

/** Triangular spread: least, most likely, most. */
export interface Spread {
  readonly low: number;
  readonly mode: number;
  readonly high: number;
}

/** Everything the model assumes, in one value. Defaults below; a project stores only what differs, by dotted path. */
export interface Figures {
  readonly snow: Readonly<
    Record<
      Hardness,
      {
        readonly muSliding: Spread;
        readonly muArresting: Spread;
        /** Median strength of the best placement, kN. */
        readonly pieceKN: number;
      }
    >
  >;
  readonly ability: Readonly<
    Record<Ability, { readonly arrests: number; readonly readyWhenPulled: number; readonly slips: number }>
  >;
  readonly piece: {
    /** Spread of the lognormal strength. */
    readonly sigmaLn: number;
    readonly hardwareKN: number;
    /** Factor when very wet or soaked. */
    readonly wetFactor: number;
    readonly anchorFactor: number;
    readonly anchorMaxKN: number;
    readonly captureDeviceKN: number;
  };
  readonly rope: {
    /** Tension ratio over a carabiner at a full turn. */
    readonly carabinerRatio: number;
    /** Fall factor of the standard test fall. */
    readonly testFallFactor: number;
    readonly slackM: Spread;
    readonly belayedSlackM: Spread;
    readonly reactionS: Spread;
    /** Where the likeliest modulus lies between static and label. */
    readonly modulusMode: number;
    /** Newtons per unit strain, in kN, where the label's figures do not apply. */
    readonly lowStretchModulusKN: Spread;
  };
  readonly slope: {
    readonly spreadDeg: number;
    readonly easyBelowDeg: number;
    readonly easyOverDeg: number;
  };
  /** What a raster's cell size hides, by classes of cell size: coarse, middle, fine. */
  readonly ground: {
    readonly coarseFromM: number;
    readonly middleFromM: number;
    /** Added to the raw slope, never more than what exceeds `addFromDeg`. */
    readonly coarseAddDeg: number;
    readonly middleAddDeg: number;
    readonly fineAddDeg: number;
    readonly addFromDeg: number;
    /** Vertical standard error where the user names none. */
    readonly coarseSigmaZM: number;
    readonly middleSigmaZM: number;
    readonly fineSigmaZM: number;
    /** Neighbouring rasters that differ by more than this are warned of. */
    readonly seamJumpM: number;
  };
  readonly rule: {
    readonly ropedAlwaysBelowDeg: number;
    readonly pitchedOnlyFromDeg: number;
    readonly noneAboveDeg: number;
    readonly iceRopedUpToDeg: number;
    readonly deadlyEasesFromDeg: number;
    readonly deadlyEasesToDeg: number;
    readonly counterMateMu: number;
  };
  readonly runOut: {
    readonly gentleMaxMS: number;
    readonly injuringMaxMS: number;
    readonly dropSlopeDeg: number;
    readonly dropLengthM: number;
    readonly hazardReachM: number;
    readonly turnDeg: number;
    readonly easeFromDeg: number;
    readonly easeOverDeg: number;
  };
  readonly pitch: {
    readonly maxM: number;
    readonly ropeReserveM: number;
    readonly ropePerClimberM: number;
    readonly runnerM: number;
    readonly followersApartM: number;
  };
  /** Seconds for each act, low / default / high. */
  readonly act: Readonly<
    Record<
      | 'placeUpright'
      | 'placeUprightSlot'
      | 'placeTSlot'
      | 'clip'
      | 'removeUpright'
      | 'removeTSlot'
      | 'stance'
      | 'handover'
      | 'change'
      | 'knots'
      | 'interval'
      | 'turnRound'
      | 'prepareCrossing',
      Spread
    >
  >;
  /** Metres a second. */
  readonly speed: {
    readonly runningBelay: Spread;
    readonly pitchLead: Spread;
    readonly pitchFollow: Spread;
    readonly crossing: Spread;
  };
  readonly walking: {
    readonly munterUp: number;
    readonly munterDown: number;
    readonly wiggleM: number;
    /** Time factor by hardness. */
    readonly snowFactor: Readonly<Record<Hardness, number>>;
    readonly altitudeFromM: number;
    readonly altitudePctPer100M: number;
    readonly restMinPerH: number;
    readonly lowFactor: number;
    readonly highFactor: number;
  };
}

/** Best placement by hardness (judgement). */
export const bestPlacement: Readonly<Record<Hardness, Placement>> = {
  F: 't-slot',
  '4F': 't-slot',
  '1F': 't-slot',
  P: 'upright',
  K: 'upright-slot',
  I: 'none',
};

export const isVeryWet = (wetness: Wetness): boolean => wetness === 'V' || wetness === 'S';

const spread = (low: number, mode: number, high: number): Spread => ({ low, mode, high });

export const defaultFigures: Figures = {
  snow: {
    F: { muSliding: spread(0.3, 0.45, 0.6), muArresting: spread(0.7, 1.0, 1.4), pieceKN: 0.3 },
    '4F': { muSliding: spread(0.25, 0.35, 0.5), muArresting: spread(0.7, 0.95, 1.3), pieceKN: 1.0 },
    '1F': { muSliding: spread(0.15, 0.25, 0.35), muArresting: spread(0.6, 0.85, 1.1), pieceKN: 3.0 },
    P: { muSliding: spread(0.05, 0.12, 0.25), muArresting: spread(0.45, 0.7, 0.95), pieceKN: 5.0 },
    K: { muSliding: spread(0.03, 0.06, 0.12), muArresting: spread(0.3, 0.45, 0.65), pieceKN: 6.4 },
    I: { muSliding: spread(0.02, 0.03, 0.06), muArresting: spread(0.02, 0.08, 0.2), pieceKN: 0 },
  },
  ability: {
    expert: { arrests: 0.95, readyWhenPulled: 0.85, slips: 1 },
    solid: { arrests: 0.85, readyWhenPulled: 0.7, slips: 3 },
    learning: { arrests: 0.55, readyWhenPulled: 0.4, slips: 6 },
    unreliable: { arrests: 0.1, readyWhenPulled: 0.1, slips: 10 },
  },
  piece: {
    sigmaLn: 0.4,
    hardwareKN: 6.4,
    wetFactor: 0.5,
    anchorFactor: 1.8,
    anchorMaxKN: 9,
    captureDeviceKN: 4,
  },
  rope: {
    carabinerRatio: 0.6,
    testFallFactor: 1.77,
    slackM: spread(0.3, 1, 2.5),
    belayedSlackM: spread(0.3, 0.8, 2),
    reactionS: spread(0.5, 1, 2),
    modulusMode: 0.4,
    lowStretchModulusKN: spread(60, 100, 200),
  },
  slope: { spreadDeg: 1.5, easyBelowDeg: 25, easyOverDeg: 15 },
  ground: {
    coarseFromM: 20,
    middleFromM: 5,
    coarseAddDeg: 5,
    middleAddDeg: 3,
    fineAddDeg: 1,
    addFromDeg: 15,
    coarseSigmaZM: 4,
    middleSigmaZM: 1,
    fineSigmaZM: 0.3,
    seamJumpM: 5,
  },
  rule: {
    ropedAlwaysBelowDeg: 15,
    pitchedOnlyFromDeg: 50,
    noneAboveDeg: 60,
    iceRopedUpToDeg: 20,
    deadlyEasesFromDeg: 22,
    deadlyEasesToDeg: 15,
    counterMateMu: 0.3,
  },
  runOut: {
    gentleMaxMS: 5,
    injuringMaxMS: 12,
    dropSlopeDeg: 60,
    dropLengthM: 5,
    hazardReachM: 15,
    turnDeg: 15,
    easeFromDeg: 15,
    easeOverDeg: 5,
  },
  pitch: { maxM: 50, ropeReserveM: 6, ropePerClimberM: 3, runnerM: 8, followersApartM: 3 },
  act: {
    placeUpright: spread(90, 150, 300),
    placeUprightSlot: spread(135, 225, 450),
    placeTSlot: spread(300, 480, 720),
    clip: spread(10, 20, 40),
    removeUpright: spread(30, 45, 90),
    removeTSlot: spread(120, 180, 300),
    stance: spread(60, 120, 240),
    handover: spread(60, 120, 240),
    change: spread(60, 120, 240),
    knots: spread(120, 180, 300),
    interval: spread(60, 120, 240),
    turnRound: spread(120, 180, 300),
    prepareCrossing: spread(600, 900, 1800),
  },
  speed: {
    runningBelay: spread(0.15, 0.2, 0.25),
    pitchLead: spread(0.07, 0.1, 0.15),
    pitchFollow: spread(0.12, 0.17, 0.25),
    crossing: spread(0.1, 0.15, 0.25),
  },
  walking: {
    munterUp: 3,
    munterDown: 5,
    wiggleM: 3,
    snowFactor: { F: 1.3, '4F': 1.3, '1F': 1.1, P: 1, K: 1, I: 1 },
    altitudeFromM: 1500,
    altitudePctPer100M: 1,
    restMinPerH: 0,
    lowFactor: 0.85,
    highFactor: 1.25,
  },
};
