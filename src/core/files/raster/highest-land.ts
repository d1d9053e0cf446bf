import { isInside, type Area } from './crs/table';

/**
 * Highest land by region, metres, rounded up: heights well above it are not metres. Only regions that are beyond doubt;
 * everywhere else the highest top on Earth is the bound. Tops from general atlases, from memory, checked to the
 * nearest 50 m; boxes west, south, east, north by judgement. The first box that holds the place counts.
 */
const regions: readonly { readonly box: Area; readonly topM: number }[] = [
  { box: [-11, 49.5, 2, 61], topM: 1350 }, // British Isles
  { box: [4, 54.5, 32, 72], topM: 2500 }, // Scandinavia, Finland, Baltic
  { box: [-25, 63, -13, 67], topM: 2150 }, // Iceland
  { box: [-10, 35.5, 3.5, 44], topM: 3500 }, // Iberia and the Pyrenees
  { box: [-5, 43, 18, 55], topM: 4850 }, // western and central Europe
  { box: [8, 36, 30, 55], topM: 3400 }, // Italy south of the Alps, Balkans, Carpathians, plains
  { box: [-125, 24, -66, 50], topM: 4450 }, // conterminous United States and southernmost Canada
  { box: [-141, 49, -52, 61], topM: 6000 }, // Canada south of the Yukon's highest
  { box: [-180, 51, -129, 72], topM: 6250 }, // Alaska and Yukon
  { box: [-74, 59, -10, 84], topM: 3750 }, // Greenland
  { box: [112, -45, 155, -10], topM: 2300 }, // Australia
  { box: [165, -48, 179.5, -34], topM: 3800 }, // New Zealand
  { box: [128, 30, 146, 46], topM: 3800 }, // Japan
  { box: [-180, -90, 180, -60], topM: 4900 }, // Antarctica
];

export function highestLandM(lngDeg: number, latDeg: number): number {
  return regions.find(({ box }) => isInside(box, lngDeg, latDeg))?.topM ?? 9000;
}
