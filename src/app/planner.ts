import type { Figures } from '../core/assumptions/figures';
import type { Project } from '../core/domain/project';
import type { Plan } from '../core/domain/segment';
import type { Station } from '../core/domain/station';
import type { SlipTables } from '../core/slip/tables';
import type { OpenTerrain } from '../worker/ground-calls';
import { unpackPlan } from '../worker/plan-columns';
import { unpackStations, type ProfileColumns } from '../worker/profile-columns';
import { isCancelled } from '../worker/protocol';
import type { Engines } from './engines';
import { groundQuestion, isSame, slipQuestion, type Question } from './questions';

/** Everything a plan is made from. */
export interface PlanInputs {
  readonly project: Project;
  readonly figures: Figures;
  readonly terrain: readonly OpenTerrain[];
}

export interface PlannerEvents {
  /** `stations` are those of the ground as read, even where the plan has its own. */
  onPlan(plan: Plan): void;
  /** Something is being worked on; null when all is done. */
  onWork(work: { readonly label: string; readonly done: number | null } | null): void;
  onTrouble(reason: unknown): void;
}

interface Ground {
  readonly question: Question<unknown>;
  readonly stop: AbortController;
  readonly read: Promise<{ readonly columns: ProfileColumns; readonly stations: readonly Station[] }>;
}

interface Tables {
  readonly question: Question<unknown>;
  readonly quality: 'coarse' | 'final';
  readonly stop: AbortController;
  readonly built: Promise<SlipTables>;
  isBuilt: boolean;
}

/**
 * Keeps the plan in step with its inputs. Ground and slip tables are slow and kept while their own inputs stay the same;
 * the plan itself is quick. The newest question wins: an older run stops at its next wait, and what it started is
 * cancelled if nobody needs it any more.
 */
export class Planner {
  #run = 0;
  #ground: Ground | null = null;
  #coarse: Tables | null = null;
  #final: Tables | null = null;
  /** What the plan worker holds. */
  #given: { ground: Ground | null; tables: Tables | null } = { ground: null, tables: null };
  #planning: Promise<unknown> = Promise.resolve();

  constructor(
    readonly engines: Engines,
    readonly events: PlannerEvents,
  ) {
    engines.plan.onRestart = () => (this.#given = { ground: null, tables: null });
  }

  /** Plans anew; call after every change of an input. */
  update(inputs: PlanInputs): void {
    const run = ++this.#run;
    this.events.onWork({ label: 'Planning', done: null });
    void this.#follow(run, inputs).catch((reason: unknown) => {
      if (run !== this.#run || isCancelled(reason)) return;
      this.events.onWork(null);
      this.events.onTrouble(reason);
    });
  }

  /** Stops whatever is being worked on; the last plan stays. */
  cancel(): void {
    this.#run++;
    this.#ground?.stop.abort();
    this.#ground = null;
    this.#dropTables();
    this.events.onWork(null);
  }

  async #follow(run: number, inputs: PlanInputs): Promise<void> {
    const isStale = () => run !== this.#run;
    const ground = this.#groundFor(inputs);
    const known = this.#knownFinal(inputs);
    const first = known ?? this.#tablesFor(inputs, 'coarse', this.#coarse);
    await Promise.all([ground.read, first.built]);
    if (isStale()) return;
    await this.#plan(run, inputs, ground, first);
    if (isStale()) return;
    if (!known) {
      // Only now: the fine tables would keep the processor from the first answer.
      this.events.onWork({ label: 'Refining the slip figures', done: null });
      const settled = this.#tablesFor(inputs, 'final', this.#final);
      await settled.built;
      if (isStale()) return;
      await this.#plan(run, inputs, ground, settled);
    }
    if (!isStale()) this.events.onWork(null);
  }

  /** The fine tables, where they are built already and still hold. */
  #knownFinal({ project, figures }: PlanInputs): Tables | null {
    const final = this.#final;
    return final?.isBuilt && isSame(final.question, slipQuestion(project, figures)) ? final : null;
  }

  /** One plan at a time: while one is being made, only the newest question waits. */
  async #plan(run: number, { project, figures }: PlanInputs, ground: Ground, tables: Tables): Promise<void> {
    await this.#planning.catch(() => {});
    if (run !== this.#run) return;
    const { plan } = this.engines;
    const { columns, stations } = await ground.read;
    const making = (async () => {
      if (this.#given.ground !== ground) await plan.ask('setGround', columns);
      this.#given.ground = ground;
      if (this.#given.tables !== tables) await plan.ask('setTables', await tables.built);
      this.#given.tables = tables;
      return plan.ask('makePlan', { project, figures, settling: tables.quality === 'coarse' });
    })();
    this.#planning = making;
    const made = await making;
    if (run === this.#run) this.events.onPlan(unpackPlan(made, stations));
  }

  #groundFor({ project, figures, terrain }: PlanInputs): Ground {
    const question = groundQuestion(project, figures, terrain);
    if (this.#ground && isSame(this.#ground.question, question)) return this.#ground;
    this.#ground?.stop.abort();
    const stop = new AbortController();
    const read = this.engines.ground
      .ask('readGround', question.ask, {
        signal: stop.signal,
        onProgress: (done) => this.events.onWork({ label: 'Reading the ground', done }),
      })
      .then((columns) => ({ columns, stations: unpackStations(columns.stations) }));
    const ground: Ground = { question, stop, read };
    this.#ground = ground;
    read.catch(() => {
      if (this.#ground === ground) this.#ground = null;
    });
    return ground;
  }

  #tablesFor({ project, figures }: PlanInputs, quality: 'coarse' | 'final', kept: Tables | null): Tables {
    const question = slipQuestion(project, figures);
    if (kept && isSame(kept.question, question)) return kept;
    kept?.stop.abort();
    const stop = new AbortController();
    const built = this.engines.slip.ask('buildTables', { ...question.ask, quality }, { signal: stop.signal });
    const tables: Tables = { question, quality, stop, built, isBuilt: false };
    if (quality === 'coarse') this.#coarse = tables;
    else this.#final = tables;
    built.then(
      () => (tables.isBuilt = true),
      () => {
        if (this.#coarse === tables) this.#coarse = null;
        if (this.#final === tables) this.#final = null;
      },
    );
    return tables;
  }

  #dropTables(): void {
    this.#coarse?.stop.abort();
    this.#final?.stop.abort();
    this.#coarse = this.#final = null;
  }
}
