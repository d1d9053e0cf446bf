import type { SlipLookup, SlipQuery } from './slip-lookup';

/** Nodes and weights of five-point Gauss-Hermite quadrature for a standard normal (Abramowitz & Stegun 1964, 25.4.46). */
const nodes = [
  [0, 8 / 15],
  [1.355626179974266, 0.2220759220056126],
  [-1.355626179974266, 0.2220759220056126],
  [2.856970013872806, 0.01125741132772071],
  [-2.856970013872806, 0.01125741132772071],
] as const;

/**
 * Unheld share where the slope is less certain than the tables assume: they draw it with `spreadDeg`, so the rest of the
 * variance is averaged here. 0 to 100.
 */
export function unheldPct(
  lookup: SlipLookup,
  query: SlipQuery,
  sigma: { readonly slopeDeg: number | null; readonly spreadDeg: number },
): number {
  const restVariance = (sigma.slopeDeg ?? 0) ** 2 - sigma.spreadDeg ** 2;
  // Under a tenth of a degree the average differs from the middle by less than the tables' own error.
  if (!(restVariance > 0.01)) return lookup.unheldAt(query);
  const restDeg = Math.sqrt(restVariance);
  let sum = 0;
  for (const [node, weight] of nodes) {
    const slopeDeg = Math.max(0, query.slopeDeg + node * restDeg);
    sum += weight * lookup.unheldAt({ ...query, slopeDeg });
  }
  return sum;
}
