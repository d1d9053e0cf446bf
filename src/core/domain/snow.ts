/** Hand hardness, softest first: fist, four fingers, one finger, pencil, knife, ice (ICSSG, Fierz et al. 2009). */
export const hardnesses = ['F', '4F', '1F', 'P', 'K', 'I'] as const;
export type Hardness = (typeof hardnesses)[number];

/** Liquid water: dry, moist, wet, very wet, soaked (ICSSG, Fierz et al. 2009). */
export const wetnesses = ['D', 'M', 'W', 'V', 'S'] as const;
export type Wetness = (typeof wetnesses)[number];

export interface Snow {
  readonly hardness: Hardness;
  readonly wetness: Wetness;
}

export const hardnessName: Readonly<Record<Hardness, string>> = {
  F: 'fist',
  '4F': 'four fingers',
  '1F': 'one finger',
  P: 'pencil',
  K: 'knife',
  I: 'ice',
};

export const wetnessName: Readonly<Record<Wetness, string>> = {
  D: 'dry',
  M: 'moist',
  W: 'wet',
  V: 'very wet',
  S: 'soaked',
};

/** How a snow piece is set. */
export const placements = ['upright', 'upright-slot', 't-slot', 'none'] as const;
export type Placement = (typeof placements)[number];

export const placementName: Readonly<Record<Placement, string>> = {
  upright: 'upright, clipped at mid-length',
  'upright-slot': 'upright in a cut slot, clipped at mid-length',
  't-slot': 'buried T-slot',
  none: 'none (ice: screws, outside this model)',
};
