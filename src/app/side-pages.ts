/** Pages beside the map, in the order of the work. */
export const pages = [
  { id: 'ledger', label: 'Ledger' },
  { id: 'line', label: 'Line' },
  { id: 'ground', label: 'Ground' },
  { id: 'team', label: 'Team' },
  { id: 'snow', label: 'Snow' },
  { id: 'marks', label: 'Marks' },
  { id: 'day', label: 'Day' },
  { id: 'compare', label: 'What if' },
  { id: 'assumptions', label: 'Figures' },
  { id: 'way', label: 'On the way' },
  { id: 'projects', label: 'Projects' },
] as const;

export type SidePage = (typeof pages)[number]['id'];

/** How far the pages are pulled up on a phone. */
export const pulls = ['down', 'half', 'up'] as const;
export type Pull = (typeof pulls)[number];
