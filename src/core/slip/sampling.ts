import type { Spread } from '../assumptions/figures';

/** Primitive polynomials and first direction numbers of dimensions 2 to 4 (S. Joe and F. Kuo, SIAM J. Sci. Comput. 30, 2008). */
const joeKuo = [
  { degree: 1, coefficients: 0, first: [1] },
  { degree: 2, coefficients: 1, first: [1, 3] },
  { degree: 3, coefficients: 1, first: [1, 3, 1] },
];

const bits = 32;

const directions: readonly Uint32Array[] = [vanDerCorput(), ...joeKuo.map(directionNumbers)];

function vanDerCorput(): Uint32Array {
  return Uint32Array.from({ length: bits }, (_, bit) => (1 << (bits - 1 - bit)) >>> 0);
}

function directionNumbers({ degree, coefficients, first }: (typeof joeKuo)[number]): Uint32Array {
  const v = new Uint32Array(bits);
  for (let bit = 0; bit < bits; bit++) {
    if (bit < degree) {
      v[bit] = (first[bit]! << (bits - 1 - bit)) >>> 0;
      continue;
    }
    let value = v[bit - degree]! ^ (v[bit - degree]! >>> degree);
    for (let k = 1; k < degree; k++) {
      if ((coefficients >>> (degree - 1 - k)) & 1) value ^= v[bit - k]!;
    }
    v[bit] = value >>> 0;
  }
  return v;
}

function sobolBits(index: number, dimension: number): number {
  const v = directions[dimension]!;
  let x = 0;
  for (let bit = 0, rest = index; rest !== 0; bit++, rest >>>= 1) if (rest & 1) x ^= v[bit]!;
  return x >>> 0;
}

function reverseBits(x: number): number {
  let y = ((x >>> 1) & 0x55555555) | ((x & 0x55555555) << 1);
  y = ((y >>> 2) & 0x33333333) | ((y & 0x33333333) << 2);
  y = ((y >>> 4) & 0x0f0f0f0f) | ((y & 0x0f0f0f0f) << 4);
  y = ((y >>> 8) & 0x00ff00ff) | ((y & 0x00ff00ff) << 8);
  return ((y >>> 16) | (y << 16)) >>> 0;
}

/** Random permutation of the binary tree of fractions: keeps every stratification, breaks every pattern. */
function scramble(x: number, key: number): number {
  let y = reverseBits(x);
  y = (y + key) | 0;
  y ^= Math.imul(y, 0x6c50b47c);
  y ^= Math.imul(y, 0xb82f1e52);
  y ^= Math.imul(y, 0xc7afe638);
  y ^= Math.imul(y, 0x8d22f6e6);
  return reverseBits(y >>> 0);
}

/** Mixes two numbers into a scrambling key (integer finaliser of MurmurHash3, public domain). */
function keyOf(a: number, b: number): number {
  let h = (Math.imul(a + 1, 0x9e3779b1) ^ Math.imul(b + 1, 0x85ebca6b)) | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

/**
 * Low-discrepancy points: for each dimension, `count` numbers in (0, 1), the same at every call. Dimensions come in fours,
 * each four a shuffled and scrambled Sobol set of its own, so any number of dimensions is well spread.
 *
 * @param count best a power of two.
 * @source B. Burley, "Practical Hash-based Owen Scrambling", Journal of Computer Graphics Techniques 9(4), 2020.
 */
export function sobolPoints(dimensions: number, count: number): Float64Array[] {
  return Array.from({ length: dimensions }, (_, d) => {
    const group = Math.floor(d / 4);
    return Float64Array.from({ length: count }, (_, i) => {
      const x = scramble(sobolBits(scramble(i, keyOf(group, 97)), d % 4), keyOf(group, d % 4));
      return (x + 0.5) / 2 ** bits;
    });
  });
}

/** Value below which a share `u` of a triangular spread lies. */
export function triangularQuantile({ low, mode, high }: Spread, u: number): number {
  const width = high - low;
  if (width <= 0) return mode;
  const peak = (mode - low) / width;
  return u < peak
    ? low + Math.sqrt(u * width * (mode - low))
    : high - Math.sqrt((1 - u) * width * (high - mode));
}

/**
 * Value below which a share `u` of the standard normal distribution lies; relative error under 1.2e-9.
 *
 * @source P. J. Acklam, "An algorithm for computing the inverse normal cumulative distribution function", 2003 (from memory).
 */
export function normalQuantile(u: number): number {
  if (u < tailShare) return tail(Math.sqrt(-2 * Math.log(u)));
  if (u > 1 - tailShare) return -tail(Math.sqrt(-2 * Math.log(1 - u)));
  const q = u - 0.5;
  return (polynomial(centreAbove, q * q) * q) / polynomial(centreBelow, q * q);
}

const tailShare = 0.02425;

const centreAbove = [
  -3.969683028665376e1, 2.209460984245205e2, -2.759285104469687e2, 1.38357751867269e2, -3.066479806614716e1,
  2.506628277459239,
];
const centreBelow = [
  -5.447609879822406e1, 1.615858368580409e2, -1.556989798598866e2, 6.680131188771972e1, -1.328068155288572e1,
  1,
];
const tailAbove = [
  -7.784894002430293e-3, -3.223964580411365e-1, -2.400758277161838, -2.549732539343734, 4.374664141464968,
  2.938163982698783,
];
const tailBelow = [7.784695709041462e-3, 3.224671290700398e-1, 2.445134137142996, 3.754408661907416, 1];

const tail = (q: number): number => polynomial(tailAbove, q) / polynomial(tailBelow, q);

function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (const coefficient of coefficients) sum = sum * x + coefficient;
  return sum;
}
