import type { Draft, Entry } from './entry';
import { defaultFigures } from './figures';
import { figureAt } from './figure-path';
import { groundDrafts, ruleDrafts, runOutDrafts, slopeDrafts } from './ground-entries';
import { pitchDrafts, ropeDrafts } from './rope-entries';
import { abilityDrafts, pieceDrafts, snowDrafts } from './snow-entries';
import { actDrafts, speedDrafts, walkingDrafts } from './time-entries';

const drafts: readonly Draft[] = [
  ...snowDrafts,
  ...pieceDrafts,
  ...abilityDrafts,
  ...ropeDrafts,
  ...slopeDrafts,
  ...groundDrafts,
  ...ruleDrafts,
  ...runOutDrafts,
  ...pitchDrafts,
  ...actDrafts,
  ...speedDrafts,
  ...walkingDrafts,
];

/** Every figure the model assumes, in the order in which they are shown. */
export const catalogue: readonly Entry[] = drafts.map((draft) => ({
  ...draft,
  default: figureAt(defaultFigures, draft.key),
}));

export const entryOf: ReadonlyMap<string, Entry> = new Map(catalogue.map((entry) => [entry.key, entry]));
