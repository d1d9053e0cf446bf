import { defaultFigures, type Figures } from '../assumptions/figures';
import type { LeadAboveStance } from '../domain/slip-shares';
import { simulateShares, type SlipInput } from './shares';

/** The lead belayed from the stance, out over one spacing with nothing in between: a pitch without runners. */
export function leadAboveStance(input: SlipInput, spacingM: number): LeadAboveStance {
  const figures = input.figures ?? defaultFigures;
  const unheldPct = (piece: Figures['piece']): number => {
    const pitch = { ...figures.pitch, maxM: spacingM, runnerM: Infinity };
    const shares = simulateShares({ ...input, variant: 'pitched', figures: { ...figures, piece, pitch } });
    return shares.bySlipper[0]!.unheld;
  };
  return {
    onePiecePct: unheldPct({ ...figures.piece, anchorFactor: 1 }),
    twoPiecesPct: unheldPct(figures.piece),
  };
}
