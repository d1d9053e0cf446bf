import { buildTables, mergeTables, type SlipTables } from '../core/slip/tables';
import type { Port } from './protocol';
import { breathe, holdLife, serve } from './serve';
import type { SlipCalls } from './slip-calls';

/** Parts of the work between which a cancel is heard. */
const parts = 10;

holdLife(self.name);
serve<SlipCalls>(self as unknown as Port, {
  async buildTables({ party, figures, snows, turnsRoundGoingDown, quality }, { cancel, progress }) {
    const built: SlipTables[] = [];
    for (let index = 0; index < parts; index++) {
      await breathe();
      cancel.throwIfAborted();
      built.push(
        buildTables(party, figures, snows, { quality, turnsRoundGoingDown, part: { index, of: parts } }),
      );
      progress((index + 1) / parts);
    }
    return mergeTables(built as [SlipTables, ...SlipTables[]]);
  },
});
