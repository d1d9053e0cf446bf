/** Seeded pseudo-random numbers (mulberry32, public domain): the same seed gives the same mountain on every machine. */
export function randomFrom(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Smooth value noise of one octave, -1 to 1, about one bump a unit. */
function valueNoise(seed) {
  const random = randomFrom(seed);
  const table = Float64Array.from({ length: 4096 }, () => 2 * random() - 1);
  const at = (ix, iy) => table[((ix * 73856093) ^ (iy * 19349663)) & 4095];
  const ease = (t) => t * t * t * (t * (6 * t - 15) + 10);
  return (x, y) => {
    const ix = Math.floor(x);
    const iy = Math.floor(y);
    const u = ease(x - ix);
    const v = ease(y - iy);
    const south = at(ix, iy) * (1 - u) + at(ix + 1, iy) * u;
    const north = at(ix, iy + 1) * (1 - u) + at(ix + 1, iy + 1) * u;
    return south * (1 - v) + north * v;
  };
}

/** Sum of octaves, each half as wide and `fade` as high as the one before. */
export function fractal(seed, octaves, fade = 0.5) {
  const layers = Array.from({ length: octaves }, (_, i) => valueNoise(seed + i));
  return (x, y) => layers.reduce((sum, layer, i) => sum + fade ** i * layer(x * 2 ** i, y * 2 ** i), 0);
}
