/** Reads a PROJ pipeline from a geographic system to WGS 84 as one seven-parameter shift. */

/**
 * @returns {number[] | null} [] where positions stay as they are; three or seven parameters as in `+towgs84` (metres, arc
 * seconds, parts per million; position vector); null when the pipeline needs a grid or does something else.
 */
export function shiftOf(pipeline) {
  const steps = pipeline
    .split('+step')
    .map((step) => step.trim())
    .filter((step) => step !== '' && !step.startsWith('+proj=pipeline'));
  let matrix = identity;
  let offset = [0, 0, 0];
  let isShifted = false;
  for (const step of steps) {
    const words = Object.fromEntries(step.split(/\s+/).map((word) => word.replace(/^\+/, '').split('=')));
    const number = (key) => Number(words[key] ?? 0);
    switch (words.proj) {
      case 'axisswap':
      case 'unitconvert':
      case 'push':
      case 'pop':
      case 'noop':
      case 'longlat':
        break; // order, unit and meridian are dealt with by the projection's own text
      case 'cart':
        isShifted = true;
        break;
      case 'helmert':
      case 'molobadekas': {
        if ('exact' in words || words.theta) return null;
        const sign = words.convention === 'coordinate_frame' ? -1 : 1;
        const arc = (key) => (sign * number(key) * Math.PI) / 180 / 3600;
        const [rx, ry, rz] = [arc('rx'), arc('ry'), arc('rz')];
        const k = 1 + number('s') * 1e-6;
        let m = [
          [k, -k * rz, k * ry],
          [k * rz, k, -k * rx],
          [-k * ry, k * rx, k],
        ];
        let t = ['x', 'y', 'z'].map(number);
        if (words.proj === 'molobadekas') {
          const pivot = ['px', 'py', 'pz'].map(number);
          const turned = apply(m, pivot);
          t = t.map((n, i) => n + pivot[i] - turned[i]);
        }
        if ('inv' in words) {
          m = inverse(m);
          t = apply(m, t).map((n) => -n);
        }
        offset = apply(m, offset).map((n, i) => n + t[i]);
        matrix = times(m, matrix);
        break;
      }
      default:
        return null;
    }
  }
  if (!isShifted) return [];
  const k = (matrix[0][0] + matrix[1][1] + matrix[2][2]) / 3;
  const seconds = (a, b) => round((((matrix[a][b] - matrix[b][a]) / 2 / k) * 180 * 3600) / Math.PI, 8);
  const seven = [
    ...offset.map((n) => round(n, 5)),
    seconds(2, 1),
    seconds(0, 2),
    seconds(1, 0),
    round((k - 1) * 1e6, 8),
  ];
  return seven.slice(3).every((n) => n === 0) ? seven.slice(0, 3) : seven;
}

const identity = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
const apply = (m, v) => m.map((row) => row.reduce((sum, n, i) => sum + n * v[i], 0));
const times = (a, b) =>
  a.map((row) => b[0].map((_, col) => row.reduce((sum, n, i) => sum + n * b[i][col], 0)));
const round = (n, digits) => Number(n.toFixed(digits)) + 0;

function inverse([[a, b, c], [d, e, f], [g, h, i]]) {
  const det = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  return [
    [e * i - f * h, c * h - b * i, b * f - c * e],
    [f * g - d * i, a * i - c * g, c * d - a * f],
    [d * h - e * g, b * g - a * h, a * e - b * d],
  ].map((row) => row.map((n) => n / det));
}
