import { kilogramsPerPound, kilonewtonsPerPoundForce, metresPerFoot, type Units } from './units';

/** Kinds of number that people type. */
export type QuantityKind =
  'length' | 'mass' | 'force' | 'percent' | 'degrees' | 'count' | 'factor' | 'minutes' | 'speed' | 'plain';

/** How a quantity is shown: shown = stored / size. */
export interface Quantity {
  readonly unit: string;
  /** Spoken within a sentence: `metres`. Empty where there is no unit. */
  readonly unitWord: string;
  readonly size: number;
  readonly decimals: number;
}

const metric: Readonly<Record<QuantityKind, Quantity>> = {
  length: { unit: 'm', unitWord: 'metres', size: 1, decimals: 1 },
  mass: { unit: 'kg', unitWord: 'kilograms', size: 1, decimals: 1 },
  force: { unit: 'kN', unitWord: 'kilonewtons', size: 1, decimals: 2 },
  percent: { unit: '%', unitWord: 'per cent', size: 1, decimals: 1 },
  degrees: { unit: '°', unitWord: 'degrees', size: 1, decimals: 1 },
  count: { unit: '', unitWord: '', size: 1, decimals: 0 },
  factor: { unit: '', unitWord: '', size: 1, decimals: 3 },
  minutes: { unit: 'min', unitWord: 'minutes', size: 60, decimals: 1 },
  speed: { unit: 'm/s', unitWord: 'metres a second', size: 1, decimals: 3 },
  plain: { unit: '', unitWord: '', size: 1, decimals: 4 },
};

const imperial: Readonly<Record<QuantityKind, Quantity>> = {
  ...metric,
  length: { unit: 'ft', unitWord: 'feet', size: metresPerFoot, decimals: 1 },
  mass: { unit: 'lb', unitWord: 'pounds', size: kilogramsPerPound, decimals: 1 },
  force: { unit: 'lbf', unitWord: 'pounds-force', size: kilonewtonsPerPoundForce, decimals: 0 },
};

export const quantity = (kind: QuantityKind, units: Units): Quantity =>
  (units === 'metric' ? metric : imperial)[kind];

/** As it stands in a field: a point for decimals, no grouping, no trailing zeros. */
export const fieldText = (stored: number, { size, decimals }: Quantity): string =>
  String(Number((stored / size).toFixed(decimals)));
