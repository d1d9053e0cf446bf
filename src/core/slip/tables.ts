import { isVeryWet, type Figures } from '../assumptions/figures';
import { variants, type Variant } from '../domain/mode';
import type { Party } from '../domain/rope-team';
import type { SlipShares } from '../domain/slip-shares';
import type { Snow } from '../domain/snow';
import { drawSlips } from './draws';
import { ending } from './one-slip';
import { foldedBetaDeg, simulateShares, slipFollower } from './shares';

export type TableQuality = 'coarse' | 'final';

/** Unheld shares of one team in one snow with one variant, over slope and angle to the fall line, for a slope known exactly. */
export interface SlipSheet {
  readonly snowKey: string;
  readonly variant: Variant;
  readonly goingDown: boolean;
  /** Row by slope, column by beta, shares of 100. */
  readonly unheldPct: Float32Array;
}

/** Plain data: can be sent between workers, and parts built apart can be put together. */
export interface SlipTables {
  readonly party: Party;
  readonly figures: Figures;
  readonly turnsRoundGoingDown: boolean;
  readonly quality: TableQuality;
  /** A looked-up share may be off from a long simulation by this much of 100. */
  readonly errorPct: number;
  readonly slopesDeg: Float64Array;
  readonly betasDeg: Float64Array;
  readonly sheets: readonly SlipSheet[];
}

export interface TableOptions {
  readonly quality: TableQuality;
  /** Going down the strongest comes last and highest, so the order by height stays. Default true. */
  readonly turnsRoundGoingDown?: boolean;
  /** Build only every `of`-th sheet from `index` on: one worker's part. */
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
  coarse: { slopeStepDeg: 3, betasDeg: [0, 30, 60, 60, 90], slips: 128, errorPct: 8 },
  final: { slopeStepDeg: 1.5, betasDeg: [0, 15, 30, 45, 60, 60, 75, 90], slips: 512, errorPct: 4 },
} as const;

const steepestDeg = 75;

/** Neighbours stand beside each other from 60 degrees on: the sheet has a step there, so the column before it is just below. */
const justBelowDeg = 1e-6;

export function buildTables(
  party: Party,
  figures: Figures,
  snows: readonly Snow[],
  options: TableOptions,
): SlipTables {
  const { quality, turnsRoundGoingDown = true, part = { index: 0, of: 1 } } = options;
  const { slopeStepDeg, betasDeg, errorPct } = resolution[quality];
  const slopesDeg = Float64Array.from(
    { length: Math.round(steepestDeg / slopeStepDeg) + 1 },
    (_, i) => i * slopeStepDeg,
  );
  const betas = Float64Array.from(betasDeg, (beta, i) =>
    betasDeg[i + 1] === beta ? beta - justBelowDeg : beta,
  );
  const sheets = sheetsNeeded(party, snows, turnsRoundGoingDown)
    .filter((_, i) => i % part.of === part.index)
    .map(({ snow, variant, goingDown }) => ({
      snowKey: snowKey(snow),
      variant,
      goingDown,
      unheldPct: buildSheet(party, figures, { snow, variant, goingDown }, slopesDeg, betas, quality),
    }));
  return { party, figures, turnsRoundGoingDown, quality, errorPct, slopesDeg, betasDeg: betas, sheets };
}

/** Puts together what was built in parts. */
export function mergeTables([first, ...rest]: readonly [SlipTables, ...SlipTables[]]): SlipTables {
  return { ...first, sheets: [first, ...rest].flatMap(({ sheets }) => sheets) };
}

interface SheetKey {
  readonly snow: Snow;
  readonly variant: Variant;
  readonly goingDown: boolean;
}

function sheetsNeeded(party: Party, snows: readonly Snow[], turnsRound: boolean): SheetKey[] {
  const distinct = new Map(snows.map((snow) => [snowKey(snow), snow]));
  const directions = turnsRound || isMirrored(party) ? [false] : [false, true];
  return [...distinct.values()].flatMap((snow) =>
    directions.flatMap((goingDown) =>
      variants
        .filter((variant) => variant !== 'running-capture' || !goingDown)
        .map((variant) => ({ snow, variant, goingDown })),
    ),
  );
}

/** The same team from either end. */
function isMirrored({ climbers }: Party): boolean {
  return climbers.every((climber, i) => {
    const other = climbers[climbers.length - 1 - i]!;
    return climber.massKg === other.massKg && climber.ability === other.ability;
  });
}

/** Of wetness only very wet or soaked makes a difference to a slip. */
const snowKey = ({ hardness, wetness }: Snow): string => `${hardness}${isVeryWet(wetness) ? ' wet' : ''}`;

function buildSheet(
  party: Party,
  figures: Figures,
  { snow, variant, goingDown }: SheetKey,
  slopesDeg: Float64Array,
  betasDeg: Float64Array,
  quality: TableQuality,
): Float32Array {
  const climbers = goingDown ? party.climbers.toReversed() : party.climbers;
  const draws = drawSlips(climbers, party.rope, snow, figures, resolution[quality].slips);
  const unheldPct = new Float32Array(slopesDeg.length * betasDeg.length);
  const weights = climbers.map(({ ability }) => figures.ability[ability].slips);
  const total = draws.count * weights.reduce((sum, weight) => sum + weight, 0);

  for (let column = 0; column < betasDeg.length; column++) {
    for (let row = 0; row < slopesDeg.length; row++) {
      const slip = slipFollower(
        { party, variant, snow, figures, goingDown, slopeDeg: slopesDeg[row]!, betaDeg: betasDeg[column]! },
        climbers,
        draws,
        0,
      );
      let unheld = 0;
      for (let i = 0; i < draws.count; i++) {
        slip.draw(i);
        for (let slipper = 0; slipper < climbers.length; slipper++) {
          if (slip.follow(slipper) === ending.unheld) unheld += weights[slipper]!;
        }
      }
      unheldPct[row * betasDeg.length + column] = (100 * unheld) / total;
    }
  }
  return unheldPct;
}

/**
 * Unheld, of 100 modelled slips.
 *
 * @throws RangeError if no sheet was built for that snow and variant.
 */
export function unheldAt(tables: SlipTables, place: SlipPlace): number {
  const sheet = sheetFor(tables, place);
  const sigmaDeg = Math.max(tables.figures.slope.spreadDeg, place.slopeSigmaDeg ?? 0);
  const betaDeg = foldedBetaDeg(place.betaDeg);
  let sum = 0;
  for (let i = 0; i < normalPoints.length; i++) {
    sum += normalWeights[i]! * valueAt(tables, sheet, place.slopeDeg + sigmaDeg * normalPoints[i]!, betaDeg);
  }
  return sum;
}

/** Shares at a place, simulated there and then. */
export function sharesAt(tables: SlipTables, place: SlipPlace, slipsPerClimber?: number): SlipShares {
  const { party, figures, turnsRoundGoingDown } = tables;
  const turned = place.goingDown && turnsRoundGoingDown;
  const shares = simulateShares({
    ...place,
    party: turned ? { ...party, climbers: party.climbers.toReversed() } : party,
    figures,
    ...(slipsPerClimber === undefined ? {} : { slipsPerClimber }),
  });
  return turned ? { ...shares, bySlipper: shares.bySlipper.toReversed() } : shares;
}

function sheetFor(tables: SlipTables, { snow, variant, goingDown }: SlipPlace): SlipSheet {
  const key = snowKey(snow);
  // Devices are never used going down: what is left is the piece.
  const used = goingDown && variant === 'running-capture' ? 'running' : variant;
  const find = (down: boolean) =>
    tables.sheets.find(
      (sheet) => sheet.snowKey === key && sheet.variant === used && sheet.goingDown === down,
    );
  const sheet = (goingDown ? find(true) : undefined) ?? find(false);
  if (!sheet) throw new RangeError(`No slip table for ${key}, ${used}`);
  return sheet;
}

/** Bilinear between the slopes and the angles on either side. */
function valueAt(
  { slopesDeg, betasDeg }: SlipTables,
  sheet: SlipSheet,
  slopeDeg: number,
  betaDeg: number,
): number {
  const columns = betasDeg.length;
  const stepDeg = slopesDeg[1]!;
  const rowAt = Math.min(slopesDeg.length - 1, Math.max(0, slopeDeg / stepDeg));
  const row = Math.min(slopesDeg.length - 2, Math.floor(rowAt));
  let column = 0;
  while (column < columns - 2 && betasDeg[column + 1]! <= betaDeg) column++;
  const down = rowAt - row;
  const across = (betaDeg - betasDeg[column]!) / (betasDeg[column + 1]! - betasDeg[column]!);
  const at = row * columns + column;
  const values = sheet.unheldPct;
  const upper = values[at]! + across * (values[at + 1]! - values[at]!);
  const lower = values[at + columns]! + across * (values[at + columns + 1]! - values[at + columns]!);
  return upper + down * (lower - upper);
}

/** The normal spread of the slope, in steps of half a standard deviation. */
const normalPoints = Float64Array.from({ length: 15 }, (_, i) => (i - 7) / 2);
const normalWeights = normalPoints
  .map((z) => Math.exp(-0.5 * z * z))
  .map((weight, _, all) => weight / all.reduce((sum, w) => sum + w, 0));
