import { isVeryWet, type Figures } from '../assumptions/figures';
import { variants as allVariants, type Variant } from '../domain/mode';
import type { Party } from '../domain/rope-team';
import type { SlipShares } from '../domain/slip-shares';
import type { Snow } from '../domain/snow';
import { simulateShares } from './shares';
import { leadAboveStance } from './lead-above-stance';
import { sharesRange } from './shares-range';
import { devicesOnPieces, foldedBetaDeg, spacingM } from './slip-follower';
import { spreadMean } from './sheet-lookup';
import { buildSheet, type SheetGrid } from './slip-sheet';

export type TableQuality = 'coarse' | 'final';

/** Unheld shares of one team in one snow with one variant, over the tables' slopes (rows) and angles to the fall line. */
export interface SlipSheet {
  readonly snowKey: string;
  readonly variant: Variant;
  readonly goingDown: boolean;
  /** Of 100, for a slope known exactly. */
  readonly unheldPct: Float32Array;
}

/** Plain data: can be sent between workers, and what was built in parts can be put together. */
export interface SlipTables {
  readonly party: Party;
  readonly figures: Figures;
  readonly turnsRoundGoingDown: boolean;
  readonly quality: TableQuality;
  /** What is looked up may be off from a long simulation by this much of 100. */
  readonly errorPct: number;
  readonly slopesDeg: Float64Array;
  readonly betasDeg: Float64Array;
  readonly sheets: readonly SlipSheet[];
}

export interface TableOptions {
  readonly quality: TableQuality;
  /** Going down the strongest comes last and highest, so the order by height stays. Default true. */
  readonly turnsRoundGoingDown?: boolean;
  /** Only these. */
  readonly variants?: readonly Variant[];
  /** Only every `of`-th sheet from `index` on: one worker's part. */
  readonly part?: { readonly index: number; readonly of: number };
}

/** Where and how a share is asked for. */
export interface SlipPlace {
  readonly snow: Snow;
  readonly variant: Variant;
  readonly slopeDeg: number;
  readonly betaDeg: number;
  /** The station's, degrees; the figures' spread counts if larger. */
  readonly slopeSigmaDeg?: number;
  readonly goingDown: boolean;
}

const resolution = {
  coarse: { slopeStepDeg: 3, betasDeg: [0, 20, 40, 60, 60, 75, 85, 90], slips: 256, errorPct: 6 },
  final: {
    slopeStepDeg: 1.5,
    betasDeg: [0, 10, 20, 30, 40, 50, 60, 60, 70, 80, 85, 90],
    slips: 512,
    errorPct: 3,
  },
} as const;

/** A belay from an anchor takes little work to follow, and hangs on few chances. */
const pitchedSlipFactor = 2;

const steepestDeg = 75;

/** Neighbours stand beside each other from 60 degrees on, and figures step there. */
const justBelowDeg = 1e-6;

/** Ends of a range and falls onto a stance, where little is left to chance. */
const rangeSlips = 512;

export function buildTables(
  party: Party,
  figures: Figures,
  snows: readonly Snow[],
  options: TableOptions,
): SlipTables {
  const { quality, turnsRoundGoingDown = true, variants = allVariants, part = { index: 0, of: 1 } } = options;
  const grid = gridOf(quality);
  const sheets = sheetsNeeded(party, snows, variants, turnsRoundGoingDown)
    .filter((_, i) => i % part.of === part.index)
    .map(({ snow, variant, goingDown }) => ({
      snowKey: snowKey(snow),
      variant,
      goingDown,
      unheldPct: buildSheet({ party, snow, variant, goingDown }, figures, {
        ...grid,
        slips: grid.slips * (variant === 'pitched' ? pitchedSlipFactor : 1),
      }),
    }));
  const { slopesDeg, betasDeg } = grid;
  const { errorPct } = resolution[quality];
  return { party, figures, turnsRoundGoingDown, quality, errorPct, slopesDeg, betasDeg, sheets };
}

/** Puts together what was built in parts. */
export function mergeTables([first, ...rest]: readonly [SlipTables, ...SlipTables[]]): SlipTables {
  return { ...first, sheets: [first, ...rest].flatMap(({ sheets }) => sheets) };
}

function gridOf(quality: TableQuality): SheetGrid {
  const { slopeStepDeg, betasDeg, slips } = resolution[quality];
  const rows = Math.round(steepestDeg / slopeStepDeg) + 1;
  return {
    slopesDeg: Float64Array.from({ length: rows }, (_, row) => row * slopeStepDeg),
    betasDeg: Float64Array.from(betasDeg, (beta, i) =>
      betasDeg[i + 1] === beta ? beta - justBelowDeg : beta,
    ),
    slips,
  };
}

function sheetsNeeded(
  party: Party,
  snows: readonly Snow[],
  variants: readonly Variant[],
  turnsRound: boolean,
): Pick<SlipPlace, 'snow' | 'variant' | 'goingDown'>[] {
  const distinct = new Map(snows.map((snow) => [snowKey(snow), snow]));
  const directions = turnsRound || isMirrored(party) ? [false] : [false, true];
  return [...distinct.values()].flatMap((snow) =>
    directions.flatMap((goingDown) => {
      const ways = directions.length === 1 ? [false, true] : [goingDown];
      const used = new Set(
        ways.flatMap((down) => variants.map((variant) => variantUsed(party, variant, down))),
      );
      return [...used].map((variant) => ({ snow, variant, goingDown }));
    }),
  );
}

/** Where no device sits on a piece what is left is the piece: going down, or with none to spare beside the one in hand. */
function variantUsed(party: Party, variant: Variant, goingDown: boolean): Variant {
  const hasDevices = !goingDown && devicesOnPieces({ party }) > 0;
  return variant === 'running-capture' && !hasDevices ? 'running' : variant;
}

/** The same team from either end. */
function isMirrored({ climbers }: Party): boolean {
  return climbers.every((climber, i) => {
    const other = climbers[climbers.length - 1 - i]!;
    return climber.massKg === other.massKg && climber.ability === other.ability;
  });
}

/** Of wetness, only very wet or soaked makes a difference to a slip. */
const snowKey = ({ hardness, wetness }: Snow): string => `${hardness}${isVeryWet(wetness) ? ' wet' : ''}`;

/**
 * Unheld, of 100 modelled slips.
 *
 * @throws RangeError if no sheet was built for that snow and variant.
 */
export function unheldAt(tables: SlipTables, place: SlipPlace): number {
  const { unheldPct } = sheetFor(tables, place);
  return spreadMean(tables, unheldPct, {
    slopeDeg: place.slopeDeg,
    sigmaDeg: Math.max(tables.figures.slope.spreadDeg, place.slopeSigmaDeg ?? 0),
    betaDeg: foldedBetaDeg(place.betaDeg),
  });
}

/** Shares at a place with their range, simulated there and then: some milliseconds. */
export function sharesAt(tables: SlipTables, place: SlipPlace, slipsPerClimber?: number): SlipShares {
  const { party, figures, turnsRoundGoingDown } = tables;
  const turned = place.goingDown && turnsRoundGoingDown;
  const input = {
    ...place,
    party: turned ? { ...party, climbers: party.climbers.toReversed() } : party,
    figures,
  };
  const shares = simulateShares(slipsPerClimber === undefined ? input : { ...input, slipsPerClimber });
  const { low, high } = sharesRange({ ...input, slipsPerClimber: rangeSlips });
  const betweenM = spacingM(place.variant, party.rope);
  return {
    ...shares,
    bySlipper: turned ? shares.bySlipper.toReversed() : shares.bySlipper,
    unheldRange: {
      lowPct: Math.min(shares.unheld, high.unheld),
      highPct: Math.max(shares.unheld, low.unheld),
    },
    ...(betweenM === null
      ? {}
      : { leadAboveStance: leadAboveStance({ ...input, slipsPerClimber: rangeSlips }, betweenM) }),
  };
}

function sheetFor({ sheets, party }: SlipTables, { snow, variant, goingDown }: SlipPlace): SlipSheet {
  const key = snowKey(snow);
  const used = variantUsed(party, variant, goingDown);
  const find = (down: boolean) =>
    sheets.find((sheet) => sheet.snowKey === key && sheet.variant === used && sheet.goingDown === down);
  // Where no sheet was built for going down, the order by height is the same as going up.
  const sheet = (goingDown ? find(true) : undefined) ?? find(false);
  if (!sheet) throw new RangeError(`No slip table for ${key}, ${used}`);
  return sheet;
}
