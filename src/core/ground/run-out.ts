import type { Figures } from '../assumptions/figures';
import type { Cancel } from '../domain/cancel';
import type { LngLat } from '../domain/coordinates';
import type { Mark } from '../domain/mark';
import type { Raster } from '../domain/raster';
import { hardnesses, type Hardness } from '../domain/snow';
import { runOutClasses, type RunOut, type RunOutClass, type RunOutTrace } from '../domain/station';
import { Slides } from './slide';
import type { SlideEnd } from './slide-speeds';
import { Terrain } from './terrain';

type RunOutFigures = Figures['runOut'];

const all = hardnesses.map((_, index) => index);

/** Gentle or injuring where the slide stops and was never faster than that class bears; deadly everywhere else. */
export function runOutClass({ ending, maxSpeedMS }: SlideEnd, figures: RunOutFigures): RunOutClass {
  if (ending !== 'stops' || maxSpeedMS > figures.injuringMaxMS) return 'deadly';
  return maxSpeedMS > figures.gentleMaxMS ? 'injuring' : 'gentle';
}

/** How a slip from a place may end on each hardness: the worst of three slides, down the fall line and to either side of it. */
export function readRunOut(
  slides: Slides,
  position: LngLat,
  figures: RunOutFigures,
): Readonly<Record<Hardness, RunOut>> | null {
  const worst: (RunOut | undefined)[] = [];
  for (const turnDeg of [0, -figures.turnDeg, figures.turnDeg]) {
    const ends = slides.follow(position, turnDeg, all, null);
    if (ends === null) return null;
    ends.forEach((end, h) => {
      const runOut = { class: runOutClass(end!, figures), ...end! };
      const known = worst[h];
      if (known === undefined || isWorse(runOut, known)) worst[h] = runOut;
    });
  }
  return Object.fromEntries(hardnesses.map((hardness, h) => [hardness, worst[h]!])) as Record<
    Hardness,
    RunOut
  >;
}

/** By class; within a class what is caught, falls or is lost from sight before what stops; then by speed. */
export function isWorse(a: RunOut, b: RunOut): boolean {
  const rank = runOutClasses.indexOf(a.class) - runOutClasses.indexOf(b.class);
  if (rank !== 0) return rank > 0;
  const aStops = a.ending === 'stops';
  if (aStops !== (b.ending === 'stops')) return !aStops;
  return a.maxSpeedMS > b.maxSpeedMS;
}

/** The three slides from one place on one hardness, with their ways, for showing. Empty where there is no ground. */
export async function traceRunOut(request: {
  readonly position: LngLat;
  readonly hardness: Hardness;
  readonly rasters: readonly Raster[];
  readonly marks: readonly Mark[];
  readonly figures: Figures;
  readonly cancel?: Cancel;
}): Promise<RunOutTrace[]> {
  const { position, figures, cancel } = request;
  const terrain = new Terrain(request.rasters);
  const slides = new Slides(terrain, request.marks, figures);
  const asked = hardnesses.indexOf(request.hardness);
  const traces = await terrain.read(
    [0, -1, 1] as const,
    (side): RunOutTrace | null => {
      const path: LngLat[] = [];
      const ends = slides.follow(position, side * figures.runOut.turnDeg, [asked], path);
      return ends === null ? null : { turnDeg: turnOf[side], path, ...ends[asked]! };
    },
    cancel,
  );
  return traces.filter((trace) => trace !== null);
}

const turnOf = { [-1]: -15, 0: 0, 1: 15 } as const;
