import fc from 'fast-check';

/**
 * Numbers spread evenly over a range. (A plain random double is spread evenly over its bits, so nearly all of them are next
 * to nothing.)
 */
export const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: 1_000_000 }).map((part) => min + ((max - min) * part) / 1_000_000);
