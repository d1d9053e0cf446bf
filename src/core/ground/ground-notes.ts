import type { Cancel } from '../domain/cancel';
import type { Note } from '../domain/problem';
import { seamCode, zerosCode, type Station } from '../domain/station';
import { cellOfPosition } from './ground-scale';
import { bilinearM } from './read-point';
import type { Layer, Terrain } from './terrain';

/** What the reader of a profile should know about the ground behind it. */
export async function groundNotes(
  stations: readonly Station[],
  terrain: Terrain,
  seamJumpM: number,
  cancel?: Cancel,
): Promise<Note[]> {
  return [...coverage(stations), ...zeros(stations), ...(await seams(stations, terrain, seamJumpM, cancel))];
}

function coverage(stations: readonly Station[]): Note[] {
  let missingM = 0;
  for (let i = 1; i < stations.length; i++) {
    const [from, to] = [stations[i - 1]!, stations[i]!];
    const halfM = (to.alongM - from.alongM) / 2;
    missingM += (from.slopeDeg === null ? halfM : 0) + (to.slopeDeg === null ? halfM : 0);
  }
  const lengthM = stations.at(-1)?.alongM ?? 0;
  if (missingM <= 0) return [];
  const text = `${km(missingM)} of ${km(lengthM)} km have no ground data`;
  return [{ code: 'GROUND-002', subject: 'line', text }];
}

/** A wall to exactly nothing is a hole that was filled with zeros, far sooner than a cliff down to the sea. Judgement. */
const wallM = 100;

/** What is read is kept: zero is a height like any other. But nobody should walk into such a hole unwarned. */
function zeros(stations: readonly Station[]): Note[] {
  const steps = stations.slice(1).map((to, i) => ({ from: stations[i]!, to }));
  const rims = steps.filter(({ from, to }) => {
    const [a, b] = [from.elevationM, to.elevationM];
    return a !== null && b !== null && (a === 0 || b === 0) && Math.abs(a - b) > wallM;
  });
  const isZero = ({ elevationM }: Station) => elevationM === 0;
  const flatM = steps.reduce(
    (sum, { from, to }) => sum + (isZero(from) && isZero(to) ? to.alongM - from.alongM : 0),
    0,
  );
  if (flatM <= 0 || !stations.some(({ elevationM }) => elevationM !== null && elevationM > wallM)) return [];
  if (rims.length === 0 && !stations.some(({ slopeDeg }) => slopeDeg !== null && slopeDeg > 80)) return [];
  const at = (stations.find(isZero)?.alongM ?? 0).toFixed(0);
  return [
    {
      code: zerosCode,
      subject: 'line',
      text:
        `${km(flatM)} km from ${at} m on lie at exactly 0 beside ground over ${wallM} m: probably a hole in the ` +
        'raster filled with zeros. Modes and slopes there mean nothing',
    },
  ];
}

const km = (metres: number): string => (metres / 1000).toFixed(metres < 100 ? 3 : 1);

/** Where the line passes from one raster to another whose heights differ. */
async function seams(
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
