import type { LngLat } from '../domain/coordinates';

/** Earth-centred position or direction. Metres. */
export type Xyz = readonly [x: number, y: number, z: number];

const semiMajorM = 6_378_137;
const flattening = 1 / 298.257223563;
const eccentricitySquared = flattening * (2 - flattening);

/** A position on the WGS 84 ellipsoid. */
export function toXyz([lngDeg, latDeg]: LngLat): Xyz {
  const lng = (lngDeg * Math.PI) / 180;
  const lat = (latDeg * Math.PI) / 180;
  const primeVerticalM = semiMajorM / Math.sqrt(1 - eccentricitySquared * Math.sin(lat) ** 2);
  return [
    primeVerticalM * Math.cos(lat) * Math.cos(lng),
    primeVerticalM * Math.cos(lat) * Math.sin(lng),
    primeVerticalM * (1 - eccentricitySquared) * Math.sin(lat),
  ];
}

export const minus = (a: Xyz, b: Xyz): Xyz => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

export const dot = (a: Xyz, b: Xyz): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

export const cross = (a: Xyz, b: Xyz): Xyz => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

// The built-in hypot is many times slower, and nothing here overflows.
export const size = (a: Xyz): number => Math.sqrt(dot(a, a));

/** Nearest place on the straight chord from a to b: its fraction of the chord, and its distance from p. */
export function nearestOnChord(
  a: Xyz,
  b: Xyz,
  p: Xyz,
): { readonly fraction: number; readonly offsetM: number } {
  const chord = minus(b, a);
  const toP = minus(p, a);
  const lengthSquared = dot(chord, chord);
  const fraction = lengthSquared === 0 ? 0 : Math.min(Math.max(dot(toP, chord) / lengthSquared, 0), 1);
  const offset: Xyz = [
    toP[0] - fraction * chord[0],
    toP[1] - fraction * chord[1],
    toP[2] - fraction * chord[2],
  ];
  return { fraction, offsetM: size(offset) };
}
