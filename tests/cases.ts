/**
 * How many cases a law is tried on. Code made ready for mutation runs many times slower, and a law is tried again for every
 * change that might break it: fewer there, over the same ground.
 */
export const cases = (usual: number): number =>
  process.env['FIRNWARD_MUTATE'] === undefined ? usual : Math.max(2, Math.round(usual / 25));
