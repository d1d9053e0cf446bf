import { isVeryWet, type Figures } from '../../core/assumptions/figures';
import { modeName, variants, type Variant } from '../../core/domain/mode';
import type { Flip, Segment } from '../../core/domain/segment';
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
  /** Within what may stay unheld here; null: no tolerance was compared. */
  readonly isAllowed: boolean | null;
}

/** Every technique that was simulated here, in the order in which they are tried. */
export function variantReadings(segment: Segment): VariantReading[] {
  const { tolerancePct } = segment.decidedAt;
  return variants.flatMap((variant) => {
    const shares = segment.shares[variant];
    if (!shares) return [];
    const isAllowed = tolerancePct === null ? null : shares.unheld <= tolerancePct;
    return [{ variant, shares, isChosen: segment.variant === variant, isAllowed }];
  });
}

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
  ability: 'ability of the weakest',
  tolerance: 'share that may stay unheld',
  'run-out': 'run-out',
};

/** `If the hardness of the snow were one finger instead of pencil: roped travel.` */
export const flipText = ({ input, from, to, mode }: Flip): string =>
  `If the ${inputName[input]} were ${to} instead of ${from}: ${modeName[mode]}.`;
