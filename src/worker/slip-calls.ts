import type { Figures } from '../core/assumptions/figures';
import type { Party } from '../core/domain/rope-team';
import type { Snow } from '../core/domain/snow';
import type { SlipTables } from '../core/slip/tables';

/** The worker that lets people slip: thousands of modelled slips for each snow, slope and technique. */
export interface SlipCalls {
  buildTables: {
    ask: {
      readonly party: Party;
      readonly figures: Figures;
      readonly snows: readonly Snow[];
      readonly turnsRoundGoingDown: boolean;
      readonly quality: 'coarse' | 'final';
    };
    answer: SlipTables;
  };
}
