import fc from 'fast-check';

const steps = 2 ** 30;

/**
 * Any number from `min` to `max`, the ends among them, as likely in one part as in another. The library's own doubles are as
 * likely in one power of two as in another: from zero on nearly all of them are next to nothing.
 */
export const evenly = (min: number, max: number): fc.Arbitrary<number> =>
  fc
    .integer({ min: 0, max: steps })
    .map((step) => (step === steps ? max : min + ((max - min) / steps) * step));
