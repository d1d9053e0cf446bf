import type { PaceEvent } from './pace-event';
import {
  climberM,
  rotationSteps,
  sameMomentM,
  type RopeTeam,
  type StandingPieces,
  type Task,
} from './rotation';

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

export interface RunningBelayRun {
  readonly timeS: number;
  readonly rotations: number;
  /** Times the whole team stands together at one place, the end included. */
  readonly gatherings: number;
  readonly gatheringsAtM: readonly number[];
  /** Where pieces are placed, in order, the start's first; one entry for each piece. */
  readonly piecesAtM: readonly number[];
  readonly piecesPlaced: number;
  /** Times the team comes to a stand, the start included. */
  readonly stops: number;
  /** Seconds going forward, at tasks on the way, and from the stance to the end of the gathering; they sum to timeS. */
  readonly walkingS: number;
  readonly placementS: number;
  readonly gatheringS: number;
  readonly events: readonly PaceEvent[];
}

/** Metres the lead can go from a standing place of so many pieces until pieces (or devices) run out. */
export function reachM(
  options: Pick<RunningBelayOptions, 'spacingM' | 'pickets' | 'captureDevices'>,
  standingPieces: number,
): number {
  const forLead = options.pickets - standingPieces;
  const placed = options.captureDevices > 0 ? Math.min(forLead, options.captureDevices) : forLead;
  return placed * options.spacingM;
}

export function taskS({ what, pieces, onDevice }: Task, acts: BelayActs): number {
  if (what === 'place') return pieces * acts.placeS;
  if (what === 'remove') return pieces * acts.removeS;
  return acts.clipS * (onDevice ? 2 : 1);
}

/** Gatherings one after the other, as far apart as the pieces allow. Ends within half a metre of a piece are on it. */
function gatheringsWhenUsedUpM(options: RunningBelayOptions): number[] {
  const standing = options.standingPieces ?? (() => 1);
  const places: number[] = [];
  let atM = 0;
  do {
    const nextM = atM + reachM(options, standing(atM));
    atM = nextM >= options.lengthM - sameMomentM ? options.lengthM : nextM;
    places.push(atM);
  } while (atM < options.lengthM);
  return places;
}

/** The gatherings when pieces are used up; a piece that would only shift the stops for the worse stays in the pack. */
function quickestGatheringsM(options: RunningBelayOptions): readonly number[] {
  // Where a place asks for several pieces to stand on, all are needed.
  let pickets = options.standingPieces === undefined ? 2 : options.pickets;
  let quickest: RunningBelayRun | null = null;
  for (; pickets <= options.pickets; pickets++) {
    const gatheringsAtM = gatheringsWhenUsedUpM({ ...options, pickets });
    const run = runRunningBelay({ ...options, gatheringsAtM, withoutEvents: true });
    if (quickest === null || run.timeS <= quickest.timeS) quickest = run;
    if (gatheringsAtM.length === 1) break;
  }
  return quickest?.gatheringsAtM ?? [options.lengthM];
}

/**
 * A stretch of running belay as events, from placing its first piece to removing its last (common practice; a discrete-event
 * count: all stand when one stands, what happens at one moment overlaps).
 */
export function runRunningBelay(options: RunningBelayOptions): RunningBelayRun {
  const { acts } = options;
  const team: RopeTeam = { ...options, captureDevices: options.captureDevices > 0 };
  checkTeam(options);
  const standing = options.standingPieces ?? (() => 1);
  const gatheringsAtM = options.gatheringsAtM ?? quickestGatheringsM(options);
  const log = options.withoutEvents === true ? null : new Array<PaceEvent>();
  const piecesAtM: number[] = [];
  const order = Array.from({ length: team.climbers }, (_, who) => who);
  const total = { walkingS: 0, placementS: 0, gatheringS: 0 };
  let nowS = 0;
  let stops = 0;
  let standingStill = false;

  const spend = (seconds: number, on: keyof typeof total) => {
    total[on] += seconds;
    nowS += seconds;
  };
  const note = (
    who: number,
    what: PaceEvent['what'],
    seconds: number,
    fromM: number,
    toM: number,
    pieceM?: number,
  ) => {
    const event = { who: order[who] ?? who, what, fromS: nowS, toS: nowS + seconds, fromM, toM };
    log?.push(pieceM === undefined ? event : { ...event, pieceM });
  };
  const stand = () => {
    if (!standingStill) stops++;
    standingStill = true;
  };
  /** Climbers by where they are now, from the rotation's start. */
  const doTasks = (
    tasks: readonly Task[],
    startM: number,
    placesM: readonly number[],
    on: keyof typeof total,
  ) => {
    stand();
    let longestS = 0;
    for (const task of tasks) {
      const seconds = taskS(task, acts);
      const hereM = startM + (placesM[task.who] ?? 0);
      note(task.who, task.what, seconds, hereM, hereM, startM + task.atM);
      if (task.what === 'place') for (let i = 0; i < task.pieces; i++) piecesAtM.push(startM + task.atM);
      longestS = Math.max(longestS, seconds);
    }
    spend(longestS, on);
  };

  const first: Task = { who: 0, what: 'place', atM: 0, pieces: standing(0), onDevice: false };
  doTasks([first], 0, [0], 'placementS');

  let startM = 0;
  gatheringsAtM.forEach((endM, index) => {
    const isEnd = index === gatheringsAtM.length - 1;
    const rotationM = endM - startM;
    const pieces: StandingPieces = { atStart: standing(startM), atEnd: standing(endM) };
    let placesM = order.map(() => 0);
    let gathering = false;

    const walk = (toM: readonly number[], paceM: number, on: keyof typeof total) => {
      const lastFromM = placesM[paceM] ?? 0;
      const seconds = walkS(options.speedMS, startM + lastFromM, startM + (toM[paceM] ?? 0));
      toM.forEach((targetM, who) => {
        const fromM = placesM[who] ?? 0;
        if (targetM === fromM) return;
        // Who arrives before the slowest of a gathering arrives has walked the shorter way at the same speed.
        const part =
          gathering && targetM === rotationM ? (targetM - fromM) / ((toM[paceM] ?? 0) - lastFromM) : 1;
        note(
          who,
          gathering ? 'follow' : 'walk',
          seconds * Math.min(1, part),
          startM + fromM,
          startM + targetM,
        );
      });
      spend(seconds, on);
      placesM = [...toM];
      standingStill = false;
    };

    for (const step of rotationSteps(team, rotationM, pieces)) {
      if (step.kind === 'tasks') {
        doTasks(step.tasks, startM, placesM, step.gathering ? 'gatheringS' : 'placementS');
      } else if (step.kind === 'lead') {
        const leadM = (placesM[0] ?? 0) + step.walkM;
        walk(
          placesM.map((_, who) => climberM(team, who, leadM)),
          0,
          'walkingS',
        );
      } else if (step.kind === 'stance') {
        stand();
        note(0, 'stance', acts.stanceS, endM, endM);
        spend(acts.stanceS, 'gatheringS');
        gathering = true;
      } else {
        walk(
          placesM.map((hereM) => Math.min(rotationM, hereM + step.walkM)),
          team.climbers - 1,
          'gatheringS',
        );
      }
    }
    if (isEnd) {
      const atLast = order.map(() => rotationM);
      const task: Task = {
        who: team.climbers - 1,
        what: 'remove',
        atM: rotationM,
        pieces: pieces.atEnd,
        onDevice: false,
      };
      doTasks([task], startM, atLast, 'gatheringS');
    } else if (options.lastLeads === true) {
      stand();
      order.reverse();
    } else {
      stand();
      note(0, 'handover', acts.handoverS, endM, endM);
      spend(acts.handoverS, 'gatheringS');
    }
    startM = endM;
  });

  return {
    timeS: nowS,
    rotations: gatheringsAtM.length,
    gatherings: gatheringsAtM.length,
    gatheringsAtM,
    piecesAtM,
    piecesPlaced: piecesAtM.length,
    stops,
    ...total,
    events: log ?? [],
  };
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

function checkTeam({ climbers, pickets, intervalM, spacingM, lengthM }: RunningBelayOptions): void {
  const fits = climbers >= 2 && pickets >= 2 && spacingM >= 1 && spacingM <= intervalM + 1e-9 && lengthM >= 0;
  if (!fits) {
    const given = JSON.stringify({ climbers, pickets, intervalM, spacingM, lengthM });
    throw new RangeError(
      `a running belay needs two climbers, two pieces and a spacing of 1 m to the interval: ${given}`,
    );
  }
}
