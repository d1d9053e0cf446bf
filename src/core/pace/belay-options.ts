import type { RopeTeam } from './rotation';

/** Seconds for each act of a running belay. */
export interface BelayActs {
  readonly placeS: number;
  readonly clipS: number;
  readonly removeS: number;
  readonly stanceS: number;
  readonly handoverS: number;
}

export interface RunningBelayOptions {
  /** Along the slope, as is every distance here. */
  readonly lengthM: number;
  /** On the rope, 2 or more. */
  readonly climbers: number;
  readonly intervalM: number;
  /** At most the interval. */
  readonly spacingM: number;
  /** Pieces the team carries, 2 or more. */
  readonly pickets: number;
  /** Rope capture devices on the pieces: as many as are carried. 0: none. */
  readonly captureDevices: number;
  /** Metres a second: one value, or by distance from the start. */
  readonly speedMS: number | ((alongM: number) => number);
  readonly acts: BelayActs;
  /** The last takes the lead at each gathering. */
  readonly lastLeads?: boolean;
  /** Where to gather, ascending, the end included; by default when the pieces are used up. */
  readonly gatheringsAtM?: readonly number[];
  /** Pieces a standing place has, by its distance; one by default. */
  readonly standingPieces?: (alongM: number) => number;
  /** Leave the log away where only figures are wanted. */
  readonly withoutEvents?: boolean;
}

export type AtOneSpeed = RunningBelayOptions & { readonly speedMS: number };

export const ropeTeam = (options: RunningBelayOptions): RopeTeam => ({
  climbers: options.climbers,
  intervalM: options.intervalM,
  spacingM: options.spacingM,
  captureDevices: options.captureDevices > 0,
});

/** Metres the lead can go from a standing place of so many pieces until pieces, or devices, run out. */
export function reachM(
  options: Pick<RunningBelayOptions, 'spacingM' | 'pickets' | 'captureDevices'>,
  standingPieces: number,
): number {
  const forLead = options.pickets - standingPieces;
  const placed = options.captureDevices > 0 ? Math.min(forLead, options.captureDevices) : forLead;
  return placed * options.spacingM;
}

/** Seconds from one distance to a further one; a speed by distance is taken in the middle of steps of at most a metre. */
export function walkS(speedMS: RunningBelayOptions['speedMS'], fromM: number, toM: number): number {
  if (typeof speedMS === 'number') return (toM - fromM) / speedMS;
  const steps = Math.max(1, Math.ceil(toM - fromM));
  const stepM = (toM - fromM) / steps;
  let seconds = 0;
  for (let i = 0; i < steps; i++) seconds += stepM / speedMS(fromM + (i + 0.5) * stepM);
  return seconds;
}

/** @throws RangeError where the caller has let through what is no running belay. */
export function checkTeam({ climbers, pickets, intervalM, spacingM, lengthM }: RunningBelayOptions): void {
  const fits = climbers >= 2 && pickets >= 2 && spacingM >= 1 && spacingM <= intervalM + 1e-9 && lengthM >= 0;
  if (fits) return;
  const given = JSON.stringify({ climbers, pickets, intervalM, spacingM, lengthM });
  throw new RangeError(
    `a running belay needs two climbers, two pieces, a spacing of 1 m to the interval: ${given}`,
  );
}
