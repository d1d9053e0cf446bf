import { ropeTeam, type AtOneSpeed, type BelayActs } from './belay-options';
import { climberM, rotationSteps, type StandingPieces, type Task } from './rotation';

export function taskS({ what, pieces, onDevice }: Task, acts: BelayActs): number {
  if (what === 'place') return pieces * acts.placeS;
  if (what === 'remove') return pieces * acts.removeS;
  return acts.clipS * (onDevice ? 2 : 1);
}

/** Tasks at one moment overlap: the longest counts. */
export function longestS(tasks: readonly Task[], acts: BelayActs): number {
  let longest = 0;
  for (const task of tasks) longest = Math.max(longest, taskS(task, acts));
  return longest;
}

/** Seconds of one rotation, with the handover that ends it. */
export function rotationS(options: AtOneSpeed, lengthM: number, standing: StandingPieces): number {
  const { acts } = options;
  const team = ropeTeam(options);
  const followM = lengthM - climberM(team, team.climbers - 1, lengthM);
  let seconds = (lengthM + followM) / options.speedMS + acts.stanceS;
  for (const step of rotationSteps(team, lengthM, standing)) {
    if (step.kind === 'tasks') seconds += longestS(step.tasks, acts);
  }
  return seconds + (options.lastLeads === true ? 0 : acts.handoverS);
}

/** The same for rotations that differ by rounding only. */
export const rotationKey = (lengthM: number, { atStart, atEnd }: StandingPieces): number =>
  (Math.round(lengthM * 1e6) * 16 + atStart) * 16 + atEnd;

/** Seconds of a whole running belay at one speed, without following its events. Equal rotations are counted once. */
export function belayS(options: AtOneSpeed, gatheringsAtM: readonly number[]): number {
  const { acts, standingPieces = () => 1 } = options;
  const known = new Map<number, number>();
  let startM = 0;
  let seconds = standingPieces(0) * acts.placeS;
  for (const endM of gatheringsAtM) {
    const standing = { atStart: standingPieces(startM), atEnd: standingPieces(endM) };
    const key = rotationKey(endM - startM, standing);
    let rotation = known.get(key);
    if (rotation === undefined) known.set(key, (rotation = rotationS(options, endM - startM, standing)));
    seconds += rotation;
    startM = endM;
  }
  const lastHandoverS = options.lastLeads === true ? 0 : acts.handoverS;
  return seconds + standingPieces(startM) * acts.removeS - lastHandoverS;
}
