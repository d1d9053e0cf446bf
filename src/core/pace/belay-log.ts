import { walkS, type BelayActs, type RunningBelayOptions } from './belay-options';
import type { PaceAct, PaceEvent } from './pace-event';
import { climberM, type RopeTeam, type Step, type Task } from './rotation';
import { longestS, taskS } from './rotation-time';

/** What seconds are spent on: going forward, tasks on the way, and from the stance to the end of the gathering. */
export type BelayPart = 'walkingS' | 'placementS' | 'gatheringS';

/** Follows a rope team through its rotations and keeps the time. */
export class BelayLog {
  nowS = 0;
  stops = 0;
  readonly total: Record<BelayPart, number> = { walkingS: 0, placementS: 0, gatheringS: 0 };
  readonly piecesAtM: number[] = [];
  readonly events: PaceEvent[] = [];
  /** Climber of the party by place on the rope. */
  readonly #order: number[];
  readonly #team: RopeTeam;
  readonly #acts: BelayActs;
  readonly #speedMS: RunningBelayOptions['speedMS'];
  readonly #logs: boolean;
  #standing = false;
  #gathering = false;
  /** Where this rotation began. */
  #startM = 0;
  /** By place on the rope, from the rotation's start. */
  #placesM: number[];

  constructor(team: RopeTeam, { acts, speedMS, withoutEvents }: RunningBelayOptions) {
    this.#team = team;
    this.#acts = acts;
    this.#speedMS = speedMS;
    this.#logs = withoutEvents !== true;
    this.#order = Array.from({ length: team.climbers }, (_, who) => who);
    this.#placesM = this.#order.map(() => 0);
  }

  /** The team begins a rotation, gathered. */
  begin(startM: number): void {
    this.#startM = startM;
    this.#gathering = false;
    this.#placesM.fill(0);
  }

  take(step: Step, rotationM: number): void {
    switch (step.kind) {
      case 'tasks':
        return this.tasks(step.tasks, step.gathering ? 'gatheringS' : 'placementS');
      case 'lead': {
        const leadM = this.#placesM[0]! + step.walkM;
        return this.#walk((_, who) => climberM(this.#team, who, leadM), 0, 'walkingS');
      }
      case 'stance':
        this.#gathering = true;
        return this.lead('stance', this.#acts.stanceS);
      case 'gather': {
        const last = this.#team.climbers - 1;
        return this.#walk((hereM) => Math.min(rotationM, hereM + step.walkM), last, 'gatheringS');
      }
    }
  }

  tasks(tasks: readonly Task[], part: BelayPart): void {
    this.stand();
    for (const task of tasks) {
      const hereM = this.#placesM[task.who]!;
      const pieceM = this.#startM + task.atM;
      this.#note(task.who, task.what, taskS(task, this.#acts), hereM, hereM, pieceM);
      if (task.what === 'place') for (let i = 0; i < task.pieces; i++) this.piecesAtM.push(pieceM);
    }
    this.#spend(longestS(tasks, this.#acts), part);
  }

  /** The lead does something for the gathered team. */
  lead(what: 'stance' | 'handover', seconds: number): void {
    this.stand();
    const hereM = this.#placesM[0]!;
    this.#note(0, what, seconds, hereM, hereM);
    this.#spend(seconds, 'gatheringS');
  }

  /** The last goes on as lead: the rope runs the other way round. */
  swapLead(): void {
    this.stand();
    this.#order.reverse();
  }

  stand(): void {
    if (!this.#standing) this.stops++;
    this.#standing = true;
  }

  /** Everybody goes to their next place; `slowest` tells how long it takes. */
  #walk(next: (hereM: number, who: number) => number, slowest: number, part: BelayPart): void {
    const fromM = this.#placesM;
    const toM = fromM.map(next);
    const wayM = toM[slowest]! - fromM[slowest]!;
    const seconds = walkS(this.#speedMS, this.#startM + fromM[slowest]!, this.#startM + toM[slowest]!);
    if (this.#logs)
      fromM.forEach((m, who) => {
        const ownM = toM[who]! - m;
        // Who is up with the lead before the last is has stopped there.
        const ownS = this.#gathering ? seconds * Math.min(1, ownM / wayM) : seconds;
        if (ownM > 0) this.#note(who, this.#gathering ? 'follow' : 'walk', ownS, m, toM[who]!);
      });
    this.#placesM = toM;
    this.#spend(seconds, part);
    this.#standing = false;
  }

  #spend(seconds: number, part: BelayPart): void {
    this.total[part] += seconds;
    this.nowS += seconds;
  }

  #note(rank: number, what: PaceAct, seconds: number, fromM: number, toM: number, pieceM?: number): void {
    if (!this.#logs) return;
    this.events.push({
      who: this.#order[rank]!,
      what,
      fromS: this.nowS,
      toS: this.nowS + seconds,
      fromM: this.#startM + fromM,
      toM: this.#startM + toM,
      ...(pieceM === undefined ? {} : { pieceM }),
    });
  }
}
