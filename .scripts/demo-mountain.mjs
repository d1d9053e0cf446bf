import { fractal } from './noise.mjs';

/**
 * The invented mountain: Mount Ombry above the Lantern Glacier, on an island that no chart shows. All figures are made up.
 * Local metres, x east and y north from the raster's south-west corner.
 */
export const extentM = 4400;

const broad = fractal(11, 4);
const fine = fractal(71, 3);
const ribs = fractal(131, 4, 0.6);

const smoothStep = (from, to, v) => {
  const t = Math.min(1, Math.max(0, (v - from) / (to - from)));
  return t * t * (3 - 2 * t);
};
const smoothMax = (a, b, widthM) => {
  const h = Math.min(1, Math.max(0, 0.5 + (a - b) / (2 * widthM)));
  return b * (1 - h) + a * h + widthM * h * (1 - h);
};

/** Piecewise slopes of the glacier's centre line, from the tongue to the foot of the headwall: [until y, degrees]. */
const reaches = [
  [1000, 5],
  [1150, 8],
  [1330, 12],
  [1400, 15],
  [1530, 22.5],
  [1580, 18],
  [1700, 13],
  [1850, 14],
  [2400, 13],
  [2560, 9],
  [2700, 12],
  [2820, 16],
  [9999, 22],
];
const centreLine = new Float64Array(extentM + 1);
centreLine[0] = 1180;
for (let y = 1; y <= extentM; y++) {
  const deg = reaches.find(([until]) => y <= until)[1];
  centreLine[y] = centreLine[y - 1] + Math.tan((deg * Math.PI) / 180);
}
const centreAt = (y) => {
  let sum = 0;
  for (let k = -4; k <= 4; k++) sum += centreLine[Math.round(Math.min(extentM, Math.max(0, y + 12 * k)))];
  return sum / 9;
};

const slope = (deg) => Math.tan((deg * Math.PI) / 180);

/** Ice surface: the centre line bent, a shallow trough across, crevasses over the roll. */
function ice(x, y) {
  const middle = 2150 + 120 * Math.sin(y / 700);
  const across = (x - middle) / 900;
  const trough = 26 * across * across - 9 * Math.exp(-across * across * 3);
  const roll = smoothStep(1330, 1420, y) * (1 - smoothStep(1540, 1620, y));
  const wave = Math.sin((y + 0.0003 * (x - middle) ** 2) / 6.4 + 1.5 * broad(x / 260, y / 260));
  const crevasses =
    -1.5 * roll * smoothStep(0.86, 1, wave) * smoothStep(-0.25, 0.35, broad(x / 170 + 9, y / 170));
  return centreAt(y) + trough + 5 * broad(x / 480, y / 480) + 0.35 * fine(x / 45, y / 45) + crevasses;
}

/** Crest of the main ridge, west to east: shoulder, col, summit, shoulder. */
function crest(x) {
  const points = [
    [0, 1690],
    [700, 1835],
    [1350, 1882],
    [1750, 1874],
    [2050, 1864],
    [2300, 1892],
    [2650, 1976],
    [3050, 2046],
    [3420, 2010],
    [4400, 1760],
  ];
  const i = Math.max(
    1,
    points.findIndex(([px]) => px >= x),
  );
  const [x0, z0] = points[i - 1];
  const [x1, z1] = points[i];
  return z0 + (z1 - z0) * smoothStep(x0, x1, x);
}

/** The main ridge: a ramp that eases downward west of the col, 45 degree headwall below it, cliffs under the summit ridge. */
function mainRidge(x, y) {
  const line = 3130 + 50 * Math.sin(x / 520) + 45 * broad(x / 330, 21);
  const d = y - line;
  const top = crest(x) + 2 * broad(x / 170, 3);
  const narrow = smoothStep(2660, 2740, x) * (1 - smoothStep(2860, 2940, x));
  const rounding = 46 - 26 * narrow;
  const away = Math.sqrt(d * d + rounding * rounding) - rounding;
  const rib = 10 * ribs(x / 95, y / 300) * smoothStep(25, 100, away) * smoothStep(2380, 2620, x);
  if (d > 0) return top - away * slope(41 + 6 * broad(x / 400, 8)) + rib;
  const ramp = 1 - smoothStep(1720, 2080, x);
  const wall = Math.min(away, 110) * slope(22) + Math.max(0, away - 110) * slope(18.2);
  const headwall = away * slope(48);
  const cliffs = smoothStep(2420, 2660, x) * 74 * smoothStep(150, 180, away);
  return top - wall * ramp - headwall * (1 - ramp) - cliffs + rib;
}

/** The two side ridges that hold the glacier. */
function sideRidge(x, y, { footX, heightM, lean, seed }) {
  const line = footX + lean * (y - 1500) + 60 * Math.sin(y / 430 + seed);
  const away = Math.abs(x - line);
  const top = heightM + 0.2 * y + 60 * broad(y / 500, seed);
  return top - Math.max(0, away - 8) * 0.82 + 12 * ribs(x / 260 + seed, y / 110) * smoothStep(10, 80, away);
}

const warpEast = fractal(211, 4, 0.55);
const warpNorth = fractal(271, 4, 0.55);

/** Bends straight lines the way rock and ice are bent. */
function bent(x, y) {
  return [x + 85 * warpEast(x / 620, y / 620), y + 70 * warpNorth(x / 620 + 5, y / 620)];
}

/** Metres above the sea. NaN on a patch that the imagined survey could not see. */
export function heightAt(eastM, northM) {
  const [x, y] = bent(eastM, northM);
  const beyond = smoothStep(2950, 3500, y);
  const west = sideRidge(x, y, { footX: 640, heightM: 1420, lean: -0.06, seed: 2 }) - 620 * beyond;
  const east = sideRidge(x, y, { footX: 3700, heightM: 1470, lean: 0.05, seed: 6 }) - 620 * beyond;
  const main = mainRidge(x, y);
  const outside = smoothStep(100, 900, Math.abs(x - 2170) - 1500);
  const floor =
    ice(x, Math.min(y, 3000)) -
    420 * outside -
    0.9 * Math.max(0, y - 3000) +
    40 * outside * broad(x / 300, y / 300);
  let z = smoothMax(floor, 900 + 90 * broad(x / 420, y / 420), 40);
  z = smoothMax(z, west, 14);
  z = smoothMax(z, east, 14);
  const joined = smoothMax(z, main, 7);
  // The moving ice parts from the wall where the wall begins to rise above it.
  const gap = (main - z + 3) / 5;
  const along = smoothStep(1500, 1700, x) * (1 - smoothStep(2850, 3000, x));
  const under = smoothStep(2600, 2750, y) * (1 - smoothStep(2880, 2940, y));
  z = joined - 4.5 * Math.exp(-gap * gap) * along * under + 0.12 * fine(x / 22 + 40, y / 22);
  const hole = Math.hypot((x - 4010) / 190, (y - 3950) / 120) + 0.25 * broad(x / 120, y / 120);
  return hole < 1 ? NaN : z;
}
