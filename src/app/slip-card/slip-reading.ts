import { isVeryWet, type Figures } from '../../core/assumptions/figures';
import { modeName, variants, type Variant } from '../../core/domain/mode';
import type { Flip, Plan, Segment, Warning } from '../../core/domain/segment';
import type { Shares, SlipShares } from '../../core/domain/slip-shares';
import type { Snow } from '../../core/domain/snow';

/** Ways a slip ends, in the order in which they are drawn; unheld stands last, at the far end. */
export const endings = ['itself', 'ownArrest', 'mates', 'piece', 'unheld'] as const;
export type Ending = (typeof endings)[number];

export const endingName: Readonly<Record<Ending, string>> = {
  itself: 'stops by itself',
  ownArrest: 'own arrest',
  mates: 'mates',
  piece: 'a piece',
  unheld: 'unheld',
};

export interface VariantReading {
  readonly variant: Variant;
  readonly shares: SlipShares;
  readonly isChosen: boolean;
  /** By the figures the plan was made with; null: no tolerance was compared. */
  readonly isAllowed: boolean | null;
}

/** Every technique that was simulated here, in the order in which they are tried. */
export function variantReadings(
  plan: Pick<Plan, 'stations' | 'decisions'>,
  segment: Segment,
): VariantReading[] {
  const { tolerancePct, alongM } = segment.decidedAt;
  const decision = plan.decisions[plan.stations.findIndex((station) => station.alongM === alongM)];
  return variants.flatMap((variant) => {
    const shares = segment.shares[variant];
    if (!shares) return [];
    // The plan looked its shares up; simulated anew they may lie on the other side of the limit.
    const decidingPct = decision?.unheldPct[variant] ?? shares.unheld;
    const stands = decision?.allowed.includes(variant) === true;
    const isAllowed = tolerancePct === null ? null : stands || decidingPct <= tolerancePct;
    return [{ variant, shares, isChosen: segment.variant === variant, isAllowed }];
  });
}

/** Said once for a long stretch, but about some of its segments only. */
const isAbout: Readonly<Record<string, (segment: Segment) => boolean>> = {
  // Said under the figures of every card.
  'crevasse-falls': () => false,
  'device-limit': ({ variant }) => variant === 'running-capture',
  'many-on-running-belay': ({ mode }) => mode === 'running-belay',
};

/** The plan's graver warnings that concern a segment. */
export const warningsAt = ({ warnings }: Pick<Plan, 'warnings'>, segment: Segment): Warning[] =>
  warnings.filter(({ code, weight, fromM, toM }) => {
    if (weight < 2 || fromM === null) return false;
    return fromM < segment.toM && (toM ?? fromM) > segment.fromM && (isAbout[code]?.(segment) ?? true);
  });

/** Parts of a bar from 0 to 100: where each begins and how wide it is. Parts that don't occur are left out. */
export function barParts(shares: Shares): { ending: Ending; from: number; width: number }[] {
  let from = 0;
  return endings.flatMap((ending) => {
    const width = shares[ending];
    const part = { ending, from, width };
    from += width;
    return width > 0 ? [part] : [];
  });
}

/** Median strength of the best placement in this snow, kN; null: no snow piece can be placed (ice). */
export function pieceStrengthKN(figures: Figures, snow: Snow): number | null {
  const bestKN = figures.snow[snow.hardness].pieceKN;
  if (bestKN <= 0) return null;
  const wetKN = bestKN * (isVeryWet(snow.wetness) ? figures.piece.wetFactor : 1);
  return Math.min(wetKN, figures.piece.hardwareKN);
}

const inputName: Readonly<Record<Flip['input'], string>> = {
  hardness: 'hardness of the snow',
  slope: 'design slope',
  ability: 'abilities',
  tolerance: 'share that may stay unheld',
  'run-out': 'run-out',
};

/** `If the hardness of the snow were one finger instead of pencil: roped travel.` */
export const flipText = ({ input, from, to, mode }: Flip): string =>
  `If the ${inputName[input]} were ${to} instead of ${from}: ${modeName[mode]}.`;
