/** The guide's work beside the map. */
export const parts = [
  { id: 'prepare', label: 'Prepare' },
  { id: 'ledger', label: 'Ledger' },
  { id: 'compare', label: 'What if' },
  { id: 'way', label: 'On the way' },
  { id: 'projects', label: 'Projects' },
] as const;

/** What a plan is made from, in the order in which it is usually said. */
export const steps = [
  { id: 'line', label: 'Line' },
  { id: 'ground', label: 'Ground' },
  { id: 'marks', label: 'Marks' },
  { id: 'team', label: 'Team' },
  { id: 'snow', label: 'Snow' },
  { id: 'day', label: 'Day' },
  { id: 'assumptions', label: 'Figures' },
] as const;

export type SidePart = (typeof parts)[number]['id'];
export type Step = (typeof steps)[number]['id'];
/** A part, or a step of the preparation that stands open. */
export type SidePage = SidePart | Step;

export const stepOf = (page: SidePage): Step | null => steps.find(({ id }) => id === page)?.id ?? null;

export const partOf = (page: SidePage): SidePart => parts.find(({ id }) => id === page)?.id ?? 'prepare';

/** How far the pages are pulled up on a phone. */
export const pulls = ['down', 'half', 'up'] as const;
export type Pull = (typeof pulls)[number];
