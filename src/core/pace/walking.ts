import type { Figures } from '../assumptions/figures';
import type { Hardness } from '../domain/snow';

/** A piece of ground to be walked: horizontal length and signed rise. */
export interface Leg {
  readonly lengthM: number;
  readonly riseM: number;
}

/**
 * Munter's rule: kilometres plus hundreds of metres of rise or fall, over a rate.
 * @param rate units an hour: on foot 4 up and 6 level or down; 3 and 5 for a guided party on the rope (judgement).
 * @returns seconds
 * @source W. Munter's rule of thumb as given in mountaineering courses: t = (km + 100 m units) / rate.
 */
export function munterS(
  { lengthM, riseM }: Leg,
  rate: { readonly up: number; readonly levelOrDown: number },
): number {
  const units = lengthM / 1000 + Math.abs(riseM) / 100;
  return (units / (riseM > 0 ? rate.up : rate.levelOrDown)) * 3600;
}

/**
 * Tobler's hiking function, v = 6 exp(-3.5 |S + 0.05|) km/h on a path, S the tangent of the grade.
 * @returns seconds
 * @source W. Tobler, "Three presentations on geographical analysis and modeling", NCGIA Technical Report 93-1 (1993).
 */
export function toblerS({ lengthM, riseM }: Leg): number {
  if (lengthM === 0) return 0;
  return lengthM / toblerMS(riseM / lengthM);
}

export const toblerMS = (tangent: number): number => (6 * Math.exp(-3.5 * Math.abs(tangent + 0.05))) / 3.6;

/**
 * DIN 33466: horizontal time at 4 km/h, vertical time at 300 m/h up and 500 m/h down; the larger and half the smaller. For a
 * whole leg: it does not add up over short pieces.
 * @returns seconds
 * @source DIN 33466 (signposting of hiking paths), as quoted in several public texts; the standard itself was not read.
 */
export function din33466S(leg: {
  readonly lengthM: number;
  readonly ascentM: number;
  readonly descentM: number;
}): number {
  const levelH = leg.lengthM / 4000;
  const verticalH = leg.ascentM / 300 + leg.descentM / 500;
  return (Math.max(levelH, verticalH) + Math.min(levelH, verticalH) / 2) * 3600;
}

/**
 * Aerobic power falls with height, about 1 % for each 100 m above 1500 m; time grows by its reciprocal.
 * @source E.R. Buskirk et al., "Maximal performance at altitude and on return from altitude in conditioned runners", J. Appl.
 *   Physiol. 23 (1967) 259-266; from memory.
 */
export function altitudeFactor(
  elevationM: number,
  { altitudeFromM, altitudePctPer100M }: Figures['walking'],
): number {
  const lostPct = Math.min(90, (Math.max(0, elevationM - altitudeFromM) / 100) * altitudePctPer100M);
  return 1 / (1 - lostPct / 100);
}

/** Deep snow and rests, as a factor on time. */
export function snowAndRestFactor(
  hardness: Hardness,
  { snowFactor, restMinPerH }: Figures['walking'],
): number {
  return (snowFactor[hardness] * 60) / (60 - Math.min(59, restMinPerH));
}

/**
 * Elevations with rises and falls under `wiggleM` taken out: between turning points that remain, an ascent keeps its running
 * maximum and a descent its running minimum. Gaps (NaN) stay, and each run between gaps is treated by itself.
 */
export function withoutWiggles(elevationM: ArrayLike<number>, wiggleM: number): Float64Array {
  const smooth = Float64Array.from(elevationM);
  for (let i = 0; i < smooth.length;) {
    if (Number.isNaN(smooth[i])) {
      i++;
      continue;
    }
    let end = i;
    while (end < smooth.length && !Number.isNaN(smooth[end])) end++;
    smoothRun(smooth.subarray(i, end), wiggleM);
    i = end;
  }
  return smooth;
}

function smoothRun(z: Float64Array, wiggleM: number): void {
  const turns = turningPoints(z, wiggleM);
  turns.forEach((from, t) => {
    const to = turns[t + 1];
    if (to === undefined) return;
    const rising = z[to]! > z[from]!;
    for (let i = from + 1; i < to; i++) {
      z[i] = rising
        ? Math.min(z[to]!, Math.max(z[i]!, z[i - 1]!))
        : Math.max(z[to]!, Math.min(z[i]!, z[i - 1]!));
    }
  });
}

/** Indexes of the first and last place and of every high and low that stands out by `wiggleM`. */
function turningPoints(z: Float64Array, wiggleM: number): number[] {
  const last = z.length - 1;
  const turns = [0];
  let heading = 0;
  let [high, low] = [0, 0];
  for (let i = 1; i <= last; i++) {
    if (z[i]! > z[high]!) high = i;
    if (z[i]! < z[low]!) low = i;
    if (heading >= 0 && z[i]! < z[high]! && z[high]! - z[i]! >= wiggleM) {
      // A first rise that never stood out is a wiggle of the fall it begins.
      if (heading > 0) turns.push(high);
      heading = -1;
      [high, low] = [i, i];
    } else if (heading <= 0 && z[i]! > z[low]! && z[i]! - z[low]! >= wiggleM) {
      if (heading < 0) turns.push(low);
      heading = 1;
      [high, low] = [i, i];
    }
  }
  if (turns.at(-1) !== last) turns.push(last);
  return turns;
}
