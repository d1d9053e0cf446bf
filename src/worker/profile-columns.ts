import { hardnesses, type Hardness } from '../core/domain/snow';
import {
  runOutClasses,
  type GroundProfile,
  type RunOut,
  type RunOutEnding,
  type Station,
} from '../core/domain/station';

/**
 * Stations as typed columns. A long line has tens of thousands of stations with six run-outs each: as objects they
 * would stop the page for a third of a second on their way out of the worker, as columns they cost nothing.
 */
export interface StationColumns {
  readonly count: number;
  /** `count` numbers for each of `fields`, one field after the other; NaN is null. */
  readonly numbers: Float64Array<ArrayBuffer>;
  /** For each hardness and station: index into runOutClasses, or `none`. */
  readonly runOutClass: Uint8Array<ArrayBuffer>;
  readonly runOutEnding: Uint8Array<ArrayBuffer>;
  /** Speed, length, drop for each hardness and station. */
  readonly runOutNumbers: Float64Array<ArrayBuffer>;
}

export interface ProfileColumns extends Omit<GroundProfile, 'stations'> {
  readonly stations: StationColumns;
}

const fields = [
  'alongM',
  'bearingDeg',
  'elevationM',
  'slopeDeg',
  'designSlopeDeg',
  'slopeSigmaDeg',
  'aspectDeg',
  'curvaturePerM',
  'gradeDeg',
  'betaDeg',
  'rasterIndex',
] as const satisfies readonly (keyof Station)[];

const endingCode: Readonly<Record<RunOutEnding, number>> = {
  stops: 0,
  hazard: 1,
  drop: 2,
  edge: 3,
  hole: 4,
  far: 5,
};
const endings = Object.keys(endingCode) as RunOutEnding[];
const none = 255;

const orNull = (value: number): number | null => (Number.isNaN(value) ? null : value);

export function packStations(stations: readonly Station[]): StationColumns {
  const count = stations.length;
  const numbers = new Float64Array((fields.length + 2) * count);
  const runOutClass = new Uint8Array(hardnesses.length * count).fill(none);
  const runOutEnding = new Uint8Array(hardnesses.length * count);
  const runOutNumbers = new Float64Array(3 * hardnesses.length * count);
  stations.forEach((station, i) => {
    fields.forEach((field, f) => (numbers[f * count + i] = station[field] ?? NaN));
    numbers[fields.length * count + i] = station.position[0];
    numbers[(fields.length + 1) * count + i] = station.position[1];
    if (station.runOut === null) return;
    for (const [h, hardness] of hardnesses.entries()) {
      const runOut = station.runOut[hardness];
      const at = h * count + i;
      runOutClass[at] = runOutClasses.indexOf(runOut.class);
      runOutEnding[at] = endingCode[runOut.ending];
      runOutNumbers.set([runOut.maxSpeedMS, runOut.lengthM, runOut.dropM], 3 * at);
    }
  });
  return { count, numbers, runOutClass, runOutEnding, runOutNumbers };
}

/** The stations as objects again; their run-outs are made when they are asked for. */
export function unpackStations(columns: StationColumns): Station[] {
  const { count, numbers } = columns;
  const field = (f: number, i: number) => numbers[f * count + i] ?? NaN;
  return Array.from({ length: count }, (_, i): Station => {
    let runOut: Station['runOut'] | undefined;
    return {
      alongM: field(0, i),
      bearingDeg: field(1, i),
      elevationM: orNull(field(2, i)),
      slopeDeg: orNull(field(3, i)),
      designSlopeDeg: orNull(field(4, i)),
      slopeSigmaDeg: orNull(field(5, i)),
      aspectDeg: orNull(field(6, i)),
      curvaturePerM: orNull(field(7, i)),
      gradeDeg: orNull(field(8, i)),
      betaDeg: orNull(field(9, i)),
      rasterIndex: orNull(field(10, i)),
      position: [field(fields.length, i), field(fields.length + 1, i)],
      get runOut() {
        return (runOut ??= runOuts(columns, i));
      },
    };
  });
}

function runOuts(columns: StationColumns, i: number): Station['runOut'] {
  const made: Partial<Record<Hardness, RunOut>> = {};
  for (const [h, hardness] of hardnesses.entries()) {
    const at = h * columns.count + i;
    const runOutClass = runOutClasses[columns.runOutClass[at] ?? none];
    const ending = endings[columns.runOutEnding[at] ?? none];
    if (runOutClass === undefined || ending === undefined) return null;
    const [maxSpeedMS = NaN, lengthM = NaN, dropM = NaN] = columns.runOutNumbers.subarray(3 * at, 3 * at + 3);
    made[hardness] = { class: runOutClass, ending, maxSpeedMS, lengthM, dropM };
  }
  return made as Record<Hardness, RunOut>;
}

export const packProfile = (profile: GroundProfile): ProfileColumns => ({
  ...profile,
  stations: packStations(profile.stations),
});

export const unpackProfile = (columns: ProfileColumns): GroundProfile => ({
  ...columns,
  stations: unpackStations(columns.stations),
});

export const stationBuffers = (columns: StationColumns): ArrayBuffer[] => [
  columns.numbers.buffer,
  columns.runOutClass.buffer,
  columns.runOutEnding.buffer,
  columns.runOutNumbers.buffer,
];
