/** What the reader sees; everything inside stays metric. */
export const unitSystems = ['metric', 'imperial'] as const;
export type Units = (typeof unitSystems)[number];

/** International foot and mile, exact (international yard and pound agreement, 1959). */
export const metresPerFoot = 0.3048;
export const metresPerMile = 1609.344;
/** Exact (same agreement). */
export const kilogramsPerPound = 0.45359237;
/** Pound-force: one pound at standard gravity, 9.80665 m/s2. */
export const kilonewtonsPerPoundForce = 0.0044482216152605;
