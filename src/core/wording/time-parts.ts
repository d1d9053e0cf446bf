import type { TimeParts } from '../domain/segment';

/** What the time goes to, in the order of the day. */
export const timePartNames: readonly (readonly [label: string, key: keyof TimeParts])[] = [
  ['walking', 'walkingS'],
  ['placing, removing', 'placementS'],
  ['gathering', 'gatheringS'],
  ['pitching', 'pitchingS'],
  ['crossing', 'crossingS'],
  ['changing over', 'transitionS'],
];
