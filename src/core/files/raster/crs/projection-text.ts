/** The parts of a user-defined projection, angles in degrees, lengths in metres. Absent parts are NaN. */
export interface ProjectionParts {
  readonly latDeg: number;
  readonly lngDeg: number;
  readonly parallel1Deg: number;
  readonly parallel2Deg: number;
  readonly scale: number;
  readonly azimuthDeg: number;
  readonly rectifiedDeg: number;
  readonly falseEastM: number;
  readonly falseNorthM: number;
}

type Need = 'latDeg' | 'lngDeg' | 'parallel1Deg' | 'parallel2Deg' | 'azimuthDeg';

interface Method {
  readonly name: string;
  readonly needs: readonly Need[];
  text(parts: ProjectionParts): string;
}

const num = (value: number, otherwise = 0) => (Number.isFinite(value) ? value : otherwise);
const origin = (p: ProjectionParts) => `+lat_0=${p.latDeg} +lon_0=${p.lngDeg}`;
const scale = (p: ProjectionParts) => `+k_0=${num(p.scale, 1)}`;
const swiss = (p: ProjectionParts) => `+proj=somerc ${origin(p)} ${scale(p)}`;
const oblique = (p: ProjectionParts) =>
  `+proj=omerc +lat_0=${p.latDeg} +lonc=${p.lngDeg} +alpha=${p.azimuthDeg} ` +
  `+gamma=${num(p.rectifiedDeg, p.azimuthDeg)} ${scale(p)}`;

/** Poles apart: a natural origin at the pole goes with a scale, any other latitude is where the scale is true. */
function polar(p: ProjectionParts): string {
  const pole = p.latDeg < 0 ? -90 : 90;
  const isAtPole = Math.abs(p.latDeg) === 90;
  return `+proj=stere +lat_0=${pole} ${isAtPole ? scale(p) : `+lat_ts=${p.latDeg}`} +lon_0=${p.lngDeg}`;
}

const both = ['latDeg', 'lngDeg'] as const;
const conic = ['latDeg', 'lngDeg', 'parallel1Deg', 'parallel2Deg'] as const;
const parallels = (p: ProjectionParts) => `+lat_1=${p.parallel1Deg} +lat_2=${p.parallel2Deg}`;

/** What proj4 calls each method, and what it must be told (PROJ's documentation of its projections). */
export const methods = {
  tmerc: { name: 'transverse Mercator', needs: both, text: (p) => `+proj=tmerc ${origin(p)} ${scale(p)}` },
  obliqueA: {
    name: 'oblique Mercator',
    needs: [...both, 'azimuthDeg'],
    text: (p) => `${oblique(p)} +no_uoff`,
  },
  obliqueB: {
    name: 'oblique Mercator, centred',
    needs: [...both, 'azimuthDeg'],
    // Straight to the east PROJ goes by way of the sphere, as the Swiss do: 8 cm from the general way.
    text: (p) => (p.azimuthDeg === 90 && num(p.rectifiedDeg, 90) === 90 ? swiss(p) : oblique(p)),
  },
  swiss: {
    name: 'Swiss oblique Mercator',
    needs: both,
    text: swiss,
  },
  lcc2: {
    name: 'Lambert conformal conic',
    needs: conic,
    text: (p) => `+proj=lcc ${origin(p)} ${parallels(p)}`,
  },
  lcc1: {
    name: 'Lambert conformal conic',
    needs: both,
    text: (p) => `+proj=lcc ${origin(p)} +lat_1=${p.latDeg} ${scale(p)}`,
  },
  aea: { name: 'Albers equal area', needs: conic, text: (p) => `+proj=aea ${origin(p)} ${parallels(p)}` },
  eqdc: { name: 'equidistant conic', needs: conic, text: (p) => `+proj=eqdc ${origin(p)} ${parallels(p)}` },
  laea: { name: 'Lambert azimuthal equal area', needs: both, text: (p) => `+proj=laea ${origin(p)}` },
  aeqd: { name: 'azimuthal equidistant', needs: both, text: (p) => `+proj=aeqd ${origin(p)}` },
  polar: { name: 'polar stereographic', needs: both, text: polar },
  stere: { name: 'stereographic', needs: both, text: (p) => `+proj=stere ${origin(p)} ${scale(p)}` },
  sterea: {
    name: 'oblique stereographic',
    needs: both,
    text: (p) => `+proj=sterea ${origin(p)} ${scale(p)}`,
  },
  merc1: { name: 'Mercator', needs: ['lngDeg'], text: (p) => `+proj=merc +lon_0=${p.lngDeg} ${scale(p)}` },
  merc2: {
    name: 'Mercator',
    needs: ['lngDeg', 'parallel1Deg'],
    text: (p) => `+proj=merc +lon_0=${p.lngDeg} +lat_ts=${p.parallel1Deg}`,
  },
  cass: { name: 'Cassini-Soldner', needs: both, text: (p) => `+proj=cass ${origin(p)}` },
  poly: { name: 'polyconic', needs: both, text: (p) => `+proj=poly ${origin(p)}` },
  nzmg: { name: 'New Zealand map grid', needs: both, text: (p) => `+proj=nzmg ${origin(p)}` },
  cea: {
    name: 'cylindrical equal area',
    needs: ['lngDeg', 'parallel1Deg'],
    text: (p) => `+proj=cea +lon_0=${p.lngDeg} +lat_ts=${p.parallel1Deg}`,
  },
  sinu: { name: 'sinusoidal', needs: ['lngDeg'], text: (p) => `+proj=sinu +lon_0=${p.lngDeg}` },
} as const satisfies Record<string, Method>;

export type MethodKey = keyof typeof methods;

/** proj4 text without ellipsoid; or the names of the parts that are missing. */
export function projectionText(
  key: MethodKey,
  parts: ProjectionParts,
): { text: string } | { missing: readonly string[] } {
  const method: Method = methods[key];
  const missing = method.needs.filter((need) => !Number.isFinite(parts[need]));
  if (missing.length > 0) return { missing: missing.map((need) => needNames[need]) };
  return { text: `${method.text(parts)} +x_0=${num(parts.falseEastM)} +y_0=${num(parts.falseNorthM)}` };
}

const needNames: Readonly<Record<Need, string>> = {
  latDeg: 'latitude of origin',
  lngDeg: 'longitude of origin',
  parallel1Deg: 'first standard parallel',
  parallel2Deg: 'second standard parallel',
  azimuthDeg: 'azimuth',
};
