import { isVeryWet, type Figures } from '../assumptions/figures';
import type { Snow } from '../domain/snow';

/** Median strength of one piece in this snow, best placement, before the hardware's limit, kN. */
export function medianStrengthKN(figures: Figures, snow: Snow): number {
  return figures.snow[snow.hardness].pieceKN * wetFactor(figures, snow);
}

/**
 * Strength of one sampled piece, N: lognormal about the median, capped by the hardware, halved when very wet or soaked.
 *
 * @param normal a standard normal draw.
 */
export function pieceStrengthN(figures: Figures, snow: Snow, normal: number): number {
  const { sigmaLn, hardwareKN } = figures.piece;
  const dryKN = Math.min(hardwareKN, figures.snow[snow.hardness].pieceKN * Math.exp(sigmaLn * normal));
  return 1000 * dryKN * wetFactor(figures, snow);
}

/** Strength of an anchor of two pieces like this one, N. */
export function anchorStrengthN(figures: Figures, onePieceN: number): number {
  return Math.min(1000 * figures.piece.anchorMaxKN, figures.piece.anchorFactor * onePieceN);
}

const wetFactor = (figures: Figures, { wetness }: Snow): number =>
  isVeryWet(wetness) ? figures.piece.wetFactor : 1;
