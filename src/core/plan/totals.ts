import { modes, type Mode } from '../domain/mode';
import type { Segment, TimeParts, TimeSpan, Totals } from '../domain/segment';
import { addTime, noTime } from '../pace/level';
import { noParts } from '../pace/stretch-input';

/** What of a segment, or of a whole stretch, goes into the totals. */
export type Counted = Pick<
  Segment,
  | 'fromM'
  | 'lengthM'
  | 'ascentM'
  | 'descentM'
  | 'mode'
  | 'time'
  | 'parts'
  | 'pieces'
  | 'gatherings'
  | 'rotations'
  | 'pitches'
>;

export interface ToTotal {
  readonly segments: readonly Counted[];
  readonly lengthM: number;
  readonly crossings: number;
  /** The most pieces in use at one time. */
  readonly pickets: number;
  readonly captureDevices: number;
  readonly arrive: string | null;
  readonly turnRound: string | null;
}

/**
 * Sums over the segments. Segments whose time cannot be told add none; `notComputedBeyondM` says where the first of them
 * begins.
 */
export function totalsOf(counted: ToTotal): Totals {
  const { segments } = counted;
  const sum = (of: (segment: Counted) => number) =>
    segments.reduce((total, segment) => total + of(segment), 0);
  const sumKnown = (of: (segment: Counted) => number | null) =>
    segments.some((segment) => of(segment) === null) ? null : sum((segment) => of(segment)!);
  const gathered = segments.filter(({ mode }) => mode === 'running-belay');
  return {
    lengthM: counted.lengthM,
    ascentM: sumKnown(({ ascentM }) => ascentM),
    descentM: sumKnown(({ descentM }) => descentM),
    notComputedBeyondM: segments.find(({ time }) => time === null)?.fromM ?? null,
    time: segments.reduce<TimeSpan>(
      (total, { time }) => (time === null ? total : addTime(total, time)),
      noTime,
    ),
    parts: segments.reduce<TimeParts>(
      (total, { parts }) => (parts === null ? total : addParts(total, parts)),
      noParts,
    ),
    byMode: Object.fromEntries(modes.map((mode) => [mode, ofMode(segments, mode)])) as Totals['byMode'],
    gatherings: gathered.reduce((total, { gatherings }) => total + gatherings.length, 0),
    rotations: sum(({ rotations }) => rotations),
    pitches: sum(({ pitches }) => pitches),
    crossings: counted.crossings,
    pieces: sum(({ pieces }) => pieces.length),
    pickets: counted.pickets,
    captureDevices: counted.captureDevices,
    arrive: counted.arrive,
    turnRound: counted.turnRound,
  };
}

function ofMode(segments: readonly Counted[], mode: Mode): { lengthM: number; timeS: number | null } {
  const here = segments.filter((segment) => segment.mode === mode);
  const lengthM = here.reduce((total, segment) => total + segment.lengthM, 0);
  const unknown = here.some(({ time }) => time === null);
  return {
    lengthM,
    timeS: unknown ? null : here.reduce((total, { time }) => total + time!.defaultS, 0),
  };
}

function addParts(a: TimeParts, b: TimeParts): TimeParts {
  return {
    walkingS: a.walkingS + b.walkingS,
    placementS: a.placementS + b.placementS,
    gatheringS: a.gatheringS + b.gatheringS,
    pitchingS: a.pitchingS + b.pitchingS,
    crossingS: a.crossingS + b.crossingS,
    transitionS: a.transitionS + b.transitionS,
  };
}
