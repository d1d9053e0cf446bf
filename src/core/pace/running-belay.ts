import { BelayLog, type BelayPart } from './belay-log';
import { checkTeam, reachM, ropeTeam, type RunningBelayOptions } from './belay-options';
import type { PaceEvent } from './pace-event';
import { rotationSteps, sameMomentM, type Step, type Task } from './rotation';
import { belayS, rotationKey } from './rotation-time';

export interface RunningBelayRun extends Readonly<Record<BelayPart, number>> {
  /** Sum of its parts. */
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
  readonly events: readonly PaceEvent[];
}

/**
 * A stretch of running belay as events, from placing its first piece to removing its last (common practice; a discrete-event
 * count: all stand when one stands, what happens at one moment overlaps).
 */
export function runRunningBelay(options: RunningBelayOptions): RunningBelayRun {
  checkTeam(options);
  const { acts, lastLeads = false, standingPieces = () => 1 } = options;
  const team = ropeTeam(options);
  const log = new BelayLog(team, options);
  const gatheringsAtM = options.gatheringsAtM ?? quickestGatheringsM(options);
  const task = (who: number, what: Task['what'], atM: number, pieces: number): Task => {
    return { who, what, atM, pieces, onDevice: false };
  };
  const stepsOf = keptSteps((lengthM, atStart, atEnd) => rotationSteps(team, lengthM, { atStart, atEnd }));

  log.tasks([task(0, 'place', 0, standingPieces(0))], 'placementS');
  let startM = 0;
  gatheringsAtM.forEach((endM, index) => {
    if (index > 0 && lastLeads) log.swapLead();
    else if (index > 0) log.lead('handover', acts.handoverS);
    log.begin(startM);
    const rotationM = endM - startM;
    for (const step of stepsOf(rotationM, standingPieces(startM), standingPieces(endM))) {
      log.take(step, rotationM);
    }
    startM = endM;
  });
  log.begin(startM);
  log.tasks([task(team.climbers - 1, 'remove', 0, standingPieces(startM))], 'gatheringS');

  return {
    timeS: log.nowS,
    rotations: gatheringsAtM.length,
    gatherings: gatheringsAtM.length,
    gatheringsAtM,
    piecesAtM: log.piecesAtM,
    piecesPlaced: log.piecesAtM.length,
    stops: log.stops,
    ...log.total,
    events: log.events,
  };
}

/** Most rotations of a stretch are alike, but for rounding: their steps are made once. */
function keptSteps(make: (lengthM: number, atStart: number, atEnd: number) => Step[]) {
  const known = new Map<number, Step[]>();
  return (lengthM: number, atStart: number, atEnd: number): Step[] => {
    const key = rotationKey(lengthM, { atStart, atEnd });
    let steps = known.get(key);
    if (steps === undefined) known.set(key, (steps = make(lengthM, atStart, atEnd)));
    return steps;
  };
}

/** The gatherings when pieces are used up; a piece that would only shift the stops for the worse stays in the pack. */
function quickestGatheringsM(options: RunningBelayOptions): readonly number[] {
  // Where a place asks for several pieces to stand on, all are needed.
  let pickets = options.standingPieces === undefined ? 2 : options.pickets;
  let quickest: readonly number[] = [];
  let quickestS = Infinity;
  for (; pickets <= options.pickets; pickets++) {
    const gatheringsAtM = gatheringsWhenUsedUpM({ ...options, pickets });
    const timeS = timeOfS(options, gatheringsAtM);
    if (timeS <= quickestS) [quickest, quickestS] = [gatheringsAtM, timeS];
    if (gatheringsAtM.length === 1) break;
  }
  return quickest;
}

function timeOfS(options: RunningBelayOptions, gatheringsAtM: readonly number[]): number {
  const { speedMS } = options;
  if (typeof speedMS === 'number') return belayS({ ...options, speedMS }, gatheringsAtM);
  return runRunningBelay({ ...options, gatheringsAtM, withoutEvents: true }).timeS;
}

/** Gatherings one after the other, as far apart as the pieces allow. Half a metre before the end is on it. */
function gatheringsWhenUsedUpM(options: RunningBelayOptions): number[] {
  const { lengthM, standingPieces = () => 1 } = options;
  const places: number[] = [];
  let atM = 0;
  do {
    const nextM = atM + reachM(options, standingPieces(atM));
    atM = nextM >= lengthM - sameMomentM ? lengthM : nextM;
    places.push(atM);
  } while (atM < lengthM);
  return places;
}
