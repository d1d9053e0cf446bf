import type { LngLat } from '../domain/coordinates';
import { hardnesses, type Hardness } from '../domain/snow';
import { runOutClasses, type RunOut, type Station } from '../domain/station';
import { wrapLngDeg } from '../line/geodesic';

/** Two places closer than this are one. */
const samePlaceM = 0.001;

/** Stations with every border of marks and overrides among them. */
export interface Bordered {
  readonly stations: readonly Station[];
  /** 1 where a border stands, one for each station. */
  readonly isBorder: Uint8Array;
}

/**
 * Adds a station at every border that has none, so that a stretch painted a moment ago begins and ends where it was drawn
 * without reading the ground again. A station between two takes the worse ground of both.
 */
export function withBorders(stations: readonly Station[], bordersM: readonly number[]): Bordered {
  const first = stations[0];
  const last = stations.at(-1);
  if (first === undefined || last === undefined) return { stations: [], isBorder: new Uint8Array(0) };
  const inside = bordersM
    .filter((m) => m > first.alongM + samePlaceM && m < last.alongM - samePlaceM)
    .sort((a, b) => a - b);

  const all: Station[] = [];
  const borderIndexes: number[] = [];
  let next = 0;
  for (const station of stations) {
    for (let border = inside[next]; border !== undefined && border < station.alongM - samePlaceM;) {
      const before = all.at(-1)!;
      if (border - before.alongM >= samePlaceM) all.push(between(before, station, border));
      borderIndexes.push(all.length - 1);
      border = inside[++next];
    }
    all.push(station);
    for (let border = inside[next]; border !== undefined && border < station.alongM + samePlaceM;) {
      borderIndexes.push(all.length - 1);
      border = inside[++next];
    }
  }

  const isBorder = new Uint8Array(all.length);
  for (const index of borderIndexes) isBorder[index] = 1;
  // The same list where nothing was added: what others have read off it stays good.
  return { stations: all.length === stations.length ? stations : all, isBorder };
}

/**
 * Where each station's part of the line ends: half-way to its neighbours, or at the border between them; the gap between
 * known and unknown ground is unknown. Metres, one more than stations; the first is 0 and the last the line's length, so the
 * parts tile the line.
 */
export function partEdgesM({ stations, isBorder }: Bordered, lengthM: number): Float64Array {
  const edges = new Float64Array(stations.length + 1);
  for (let i = 1; i < stations.length; i++) {
    const [before, here, after] = [stations[i - 1]!, stations[i]!, stations[i + 1]];
    const hasPart = edges[i - 1]! < before.alongM;
    const willHavePart = after !== undefined && isKnown(after);
    if (isBorder[i] === 1) edges[i] = here.alongM;
    else if (isKnown(before) && !isKnown(here) && hasPart) edges[i] = before.alongM;
    else if (!isKnown(before) && isKnown(here) && willHavePart) edges[i] = here.alongM;
    else edges[i] = (before.alongM + here.alongM) / 2;
  }
  edges[stations.length] = lengthM;
  return edges;
}

const isKnown = ({ elevationM, designSlopeDeg }: Station): boolean =>
  elevationM !== null && designSlopeDeg !== null;

/** Index of the first station at or beyond a distance. */
export function firstStationAt(stations: readonly Station[], alongM: number): number {
  let low = 0;
  let high = stations.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (stations[middle]!.alongM < alongM - samePlaceM) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Index of the station nearest to a distance along the line. */
export function nearestIndex(stations: readonly Station[], alongM: number): number {
  const after = Math.min(firstStationAt(stations, alongM), stations.length - 1);
  const before = Math.max(0, after - 1);
  const off = (i: number) => Math.abs(stations[i]!.alongM - alongM);
  return off(before) <= off(after) ? before : after;
}

/** Stations of a stretch as a half-open range; a stretch up to the line's end holds its last station too. */
export function stationsWithin(
  stations: readonly Station[],
  stretch: { readonly fromM: number; readonly toM: number },
): { readonly first: number; readonly end: number } {
  const lastM = stations.at(-1)?.alongM ?? 0;
  const first = firstStationAt(stations, stretch.fromM);
  const end = stretch.toM >= lastM - samePlaceM ? stations.length : firstStationAt(stations, stretch.toM);
  return { first, end };
}

function between(a: Station, b: Station, alongM: number): Station {
  const fraction = (alongM - a.alongM) / (b.alongM - a.alongM);
  const mix = (from: number, to: number) => from + (to - from) * fraction;
  const unknown = a.designSlopeDeg === null ? a : b.designSlopeDeg === null ? b : null;
  const worse = unknown ?? (a.designSlopeDeg! >= b.designSlopeDeg! ? a : b);
  const eastDeg = wrapLngDeg(b.position[0] - a.position[0]);
  const position: LngLat = [
    wrapLngDeg(a.position[0] + eastDeg * fraction),
    mix(a.position[1], b.position[1]),
  ];
  return {
    ...worse,
    alongM,
    position,
    bearingDeg: a.bearingDeg,
    elevationM: a.elevationM === null || b.elevationM === null ? null : mix(a.elevationM, b.elevationM),
    runOut: a.runOut === null || b.runOut === null ? null : worseRunOut(a.runOut, b.runOut),
  };
}

type RunOuts = Readonly<Record<Hardness, RunOut>>;

function worseRunOut(a: RunOuts, b: RunOuts): RunOuts {
  const worse = { ...a };
  for (const hardness of hardnesses) {
    const rank = (runOut: RunOut) => runOutClasses.indexOf(runOut.class);
    if (rank(b[hardness]) > rank(a[hardness])) worse[hardness] = b[hardness];
  }
  return worse;
}
