import { defaultFigures, type Figures, type Spread } from '../assumptions/figures';
import { hardnesses, type Hardness } from '../domain/snow';
import type { SlipShares } from '../domain/slip-shares';
import { simulateShares, type SlipInput } from './shares';

/** The same slip with friction and pieces at the poor end of what is assumed, and at the good end. */
export interface SharesRange {
  readonly low: SlipShares;
  readonly high: SlipShares;
}

/**
 * How much the shares hang on what nobody knows: both frictions at the low, then the high end of their spreads, pieces one
 * standard deviation below, then above the median.
 */
export function sharesRange(input: SlipInput): SharesRange {
  const figures = input.figures ?? defaultFigures;
  return {
    low: simulateShares({ ...input, figures: figuresAtEnd(figures, 'low') }),
    high: simulateShares({ ...input, figures: figuresAtEnd(figures, 'high') }),
  };
}

function figuresAtEnd(figures: Figures, end: 'low' | 'high'): Figures {
  const { sigmaLn } = figures.piece;
  const factor = Math.exp(end === 'low' ? -sigmaLn : sigmaLn);
  const snowAtEnd = (hardness: Hardness) => {
    const { muSliding, muArresting, pieceKN } = figures.snow[hardness];
    return {
      muSliding: certain(muSliding[end]),
      muArresting: certain(muArresting[end]),
      pieceKN: pieceKN * factor,
    };
  };
  const snow = Object.fromEntries(
    hardnesses.map((hardness) => [hardness, snowAtEnd(hardness)]),
  ) as unknown as Figures['snow'];
  return { ...figures, snow, piece: { ...figures.piece, sigmaLn: 0 } };
}

const certain = (value: number): Spread => ({ low: value, mode: value, high: value });
