import type { Cancel } from '../domain/cancel';
import type { Note } from '../domain/problem';
import { overlapCode, seamCode, type Station } from '../domain/station';
import { cellOfPosition } from './ground-scale';
import { lengthWhere } from './length-where';
import { bilinearM } from './read-point';
import { roundStations, type Layer, type Terrain } from './terrain';

/** Where the line passes from one raster to another whose heights differ. */
export async function seams(
  stations: readonly Station[],
  terrain: Terrain,
  seamJumpM: number,
  cancel?: Cancel,
): Promise<Note[]> {
  const passes: [from: Station, to: Station][] = [];
  let last: Station | null = null;
  for (const station of stations) {
    if (station.rasterIndex === null) continue;
    if (last !== null && last.rasterIndex !== station.rasterIndex) passes.push([last, station]);
    last = station;
  }
  const layerOf = (index: number): Layer => terrain.layers.find((layer) => layer.index === index)!;
  const jumps = await terrain.read(
    passes,
    ([from, to]) => {
      const [a, b] = [layerOf(from.rasterIndex!), layerOf(to.rasterIndex!)];
      const jumpsM = [from, to].map(({ position }) => {
        const [zA, zB] = [a, b].map((layer) => bilinearM(layer, ...cellOfPosition(layer.raster, position)));
        return Math.abs(zA! - zB!);
      });
      // Where they do not overlap: what the ground's own slope does not explain of the step between the two stations.
      const byBoth = Math.max(...jumpsM.filter((jumpM) => !Number.isNaN(jumpM)));
      return byBoth === -Infinity ? unexplainedM(from, to) : byBoth;
    },
    cancel,
  );
  const notes: Note[] = [];
  passes.forEach(([from, to], i) => {
    const jumpM = jumps[i]!;
    if (!(jumpM > seamJumpM)) return;
    const names = [from, to].map((station) => layerOf(station.rasterIndex!).raster.name);
    notes.push({
      code: seamCode,
      subject: names.join(' / '),
      text:
        `at ${to.alongM.toFixed(0)} m the line passes from ${names[0]!} to ${names[1]!}, ` +
        `whose elevations differ by ${jumpM.toFixed(0)} m there`,
    });
  });
  return notes;
}

function unexplainedM(from: Station, to: Station): number {
  const runM = to.alongM - from.alongM;
  if (runM > explainableM) return NaN;
  const riseOf = ({ slopeDeg, aspectDeg, bearingDeg }: Station): number =>
    slopeDeg === null || aspectDeg === null
      ? 0
      : -Math.tan(radians(slopeDeg)) * Math.cos(radians(bearingDeg - aspectDeg)) * runM;
  return Math.abs(to.elevationM! - from.elevationM! - (riseOf(from) + riseOf(to)) / 2);
}

/** Over more than this the slopes at both ends say nothing of the ground between, metres. */
const explainableM = 50;

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Where rasters that cover the line too, but do not speak for it, say something else than the one that does. */
export async function overlaps(
  stations: readonly Station[],
  terrain: Terrain,
  jumpM: number,
  cancel?: Cancel,
): Promise<Note[]> {
  const { layers } = terrain;
  if (layers.length < 2) return [];
  const elevationsM: number[][] = [];
  const heightsAt = ({ position }: Station): number[] =>
    layers.map((layer) => bilinearM(layer, ...cellOfPosition(layer.raster, position)));
  for (let from = 0; from < stations.length; from += roundStations)
    elevationsM.push(...(await terrain.read(stations.slice(from, from + roundStations), heightsAt, cancel)));
  // Finest first: where a coarser one speaks, the finer have nothing, but for a rim.
  const pairs = layers.flatMap((used, u) =>
    layers.flatMap((other, o) => (o > u ? [{ used, other, u, o }] : [])),
  );
  return pairs.flatMap(({ used, other, u, o }) => {
    const offM = elevationsM.map((of, i) =>
      stations[i]!.rasterIndex === used.index ? Math.abs(of[u]! - of[o]!) : NaN,
    );
    const mostM = offM.reduce((most, by) => (by > most ? by : most), 0);
    if (!(mostM > jumpM)) return [];
    const lengthM = lengthWhere(stations, (i) => offM[i]! > jumpM);
    const at = stations[offM.indexOf(mostM)]!.alongM.toFixed(0);
    const text =
      `${other.raster.name} differs from ${used.raster.name}, which is used, by more than ${jumpM} m over ` +
      `${lengthM.toFixed(0)} m of the line; most by ${mostM.toFixed(0)} m, at ${at} m`;
    return [{ code: overlapCode, subject: `${used.raster.name} / ${other.raster.name}`, text }];
  });
}
