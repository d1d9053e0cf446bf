import type { Figures } from '../core/assumptions/figures';
import type { Project } from '../core/domain/project';
import type { Plan } from '../core/domain/segment';
import { hardnesses } from '../core/domain/snow';
import { partyWithDevices } from '../core/plan/condition-matrix';
import { otherTeams } from '../core/plan/other-teams';
import { snowsOnLine } from '../core/plan/snows';
import type { SlipTables } from '../core/slip/tables';
import type { OpenTerrain } from '../worker/ground-calls';
import { unpackPlan } from '../worker/plan-columns';
import type { ProfileColumns } from '../worker/profile-columns';
import { isCancelled, WorkerLost } from '../worker/protocol';
import { dayQuestion, DayShelf, type DayGround } from './day-ground';
import type { Engines } from './engines';
import { teamQuestion, withoutPoints } from './questions';
import { TableShelf } from './table-shelf';

/** Everything a plan is made from. */
export interface PlanInputs {
  readonly project: Project;
  readonly figures: Figures;
  readonly terrain: readonly OpenTerrain[];
}

export interface PlanWork {
  readonly label: string;
  readonly done: number | null;
  /** A plan is shown already and only gets better: not worth a word beside the page. */
  readonly isQuiet: boolean;
}

export interface PlannerEvents {
  /** `from`: as given to `update`. */
  onPlan(plan: Plan, from: PlanInputs): void;
  /** Something is being worked on; null when all is done. */
  onWork(work: PlanWork | null): void;
  onTrouble(reason: unknown): void;
  /** What the refined answer waits for, so as not to keep the processor from it. */
  afterFirst(): Promise<void>;
}

/** What the plan worker was handed. */
interface Given {
  readonly columns: ProfileColumns | null;
  readonly wayBack: ProfileColumns | null;
  readonly tables: SlipTables | null;
  readonly others: readonly SlipTables[];
}

const nothing: Given = { columns: null, wayBack: null, tables: null, others: [] };

/**
 * Keeps the plan in step with its inputs: first from a quick look at the ground and coarse slip tables, marked as settling,
 * then from the whole. Ground and tables are slow and kept while their own inputs stay the same; the plan itself is quick.
 * The newest question wins: an older run stops at its next wait, and what only it needed is cancelled.
 */
export class Planner {
  #run = 0;
  readonly #ground: DayShelf;
  readonly #tables: TableShelf;
  readonly #deviceTables: TableShelf;
  /** Of the team weaker and stronger. */
  readonly #otherTables: readonly TableShelf[];
  #triesAbilities = false;
  /** What the plan worker holds. */
  #given: Given = nothing;
  #planning: Promise<unknown> = Promise.resolve();
  #isQuiet = false;

  constructor(
    readonly engines: Engines,
    readonly events: PlannerEvents,
  ) {
    this.#ground = new DayShelf(engines.ground, (done) => this.#work('Reading the ground', done));
    this.#tables = new TableShelf(engines.slip);
    this.#deviceTables = new TableShelf(engines.slip);
    this.#otherTables = [new TableShelf(engines.slip), new TableShelf(engines.slip)];
    engines.plan.onRestart = () => (this.#given = nothing);
  }

  /** Plans anew; call after every change of an input. */
  update(inputs: PlanInputs, isSecondTry = false): void {
    const run = ++this.#run;
    this.#isQuiet = false;
    this.#work('Planning', null);
    void this.#follow(run, inputs).then(
      () => {
        if (run === this.#run) this.events.onWork(null);
      },
      (reason: unknown) => {
        if (run !== this.#run || isCancelled(reason)) return;
        // A worker that ended is started anew; only when it ends again is it worth a word.
        if (reason instanceof WorkerLost && !isSecondTry) return this.update(inputs, true);
        this.events.onWork(null);
        this.events.onTrouble(reason);
      },
    );
  }

  /** From now on a weaker and a stronger team is tried, too, for what would flip a segment: nobody reads that before. */
  tryAbilities(inputs: PlanInputs): void {
    if (this.#triesAbilities) return;
    this.#triesAbilities = true;
    this.update(inputs);
  }

  /** Stops whatever is being worked on; the last plan stays. */
  cancel(): void {
    this.#run++;
    this.#ground.clear();
    this.#tables.clear();
    for (const shelf of this.#otherTables) shelf.clear();
    this.events.onWork(null);
  }

  async #follow(run: number, inputs: PlanInputs): Promise<void> {
    const { project, figures, terrain } = inputs;
    const isStale = () => run !== this.#run;
    const day = dayQuestion(project, figures, terrain);
    this.#tables.setTeam(teamQuestion(project, figures));
    const everySnow = snowsOnLine(project, hardnesses);
    const knowsAll = this.#tables.has(everySnow, 'final');
    const snows = knowsAll ? everySnow : snowsOnLine(project);

    const isFinal = this.#tables.has(snows, 'final');
    if (!this.#ground.hasWhole(day) || !isFinal) {
      const [ground, tables] = await Promise.all([
        this.#ground.first(day),
        this.#tables.tables(snows, isFinal ? 'final' : 'coarse'),
      ]);
      if (isStale()) return;
      await this.#plan(run, inputs, ground, tables, true);
      this.#isQuiet = true;
      await this.events.afterFirst();
      if (isStale()) return;
    }
    // Only now: the whole answer would keep the processor from the first one.
    const [ground, tables] = await Promise.all([
      this.#ground.whole(day),
      this.#tables.tables(snows, 'final'),
    ]);
    if (isStale()) return;
    await this.#plan(run, inputs, ground, tables, false);
    this.#isQuiet = true;
    if (isStale()) return;
    if (!knowsAll) {
      // What hardness would flip a segment needs the tables of every hardness.
      this.#work('Trying other snow', null);
      const every = await this.#tables.tables(everySnow, 'final');
      if (isStale()) return;
      await this.#plan(run, inputs, ground, every, false);
    }
    if (isStale() || !this.#triesAbilities) return;
    this.#work('Trying a weaker and a stronger team', null);
    if ((await this.#giveOtherTeams(inputs)) && !isStale())
      await this.#plan(run, inputs, ground, await this.#tables.tables(everySnow, 'final'), false);
  }

  /** @returns whether the plan worker did not hold them already. */
  async #giveOtherTeams({ project, figures }: PlanInputs): Promise<boolean> {
    const snows = snowsOnLine(project);
    const teams = await Promise.all(
      otherTeams(project.party).map(async ({ from, to, party }, i) => {
        const shelf = this.#otherTables[i]!;
        shelf.setTeam(teamQuestion({ ...project, party }, figures));
        return { from, to, tables: await shelf.tables(snows, 'final') };
      }),
    );
    const others = teams.map(({ tables }) => tables);
    const { others: had } = this.#given;
    if (had.length === others.length && had.every((tables, i) => tables === others[i])) return false;
    await this.engines.plan.ask('setOtherTeams', teams);
    this.#given = { ...this.#given, others };
    return true;
  }

  /**
   * Sees to it that the plan worker holds the whole ground and the tables of every hardness: what a sheet or a file is made
   * from. Tables of the team with capture devices are built for the sheet's comparison where the rack has none.
   */
  async prepareAll(inputs: PlanInputs, signal: AbortSignal): Promise<void> {
    const { project, figures, terrain } = inputs;
    const { plan } = this.engines;
    const snows = snowsOnLine(project, hardnesses);
    this.#tables.setTeam(teamQuestion(project, figures));
    const [ground, tables] = await Promise.all([
      this.#ground.whole(dayQuestion(project, figures, terrain)),
      this.#tables.tables(snows, 'final'),
    ]);
    signal.throwIfAborted();
    await this.#give(ground, tables);
    if (project.party.rack.captureDevices > 0) {
      await plan.ask('setDeviceTables', null);
      return;
    }
    const withDevices = { ...project, party: partyWithDevices(project.party) };
    this.#deviceTables.setTeam(teamQuestion(withDevices, figures));
    const devices = await this.#deviceTables.tables(snows, 'final');
    signal.throwIfAborted();
    await plan.ask('setDeviceTables', devices);
  }

  /** One plan at a time: while one is being made, only the newest question waits. */
  async #plan(
    run: number,
    inputs: PlanInputs,
    ground: DayGround,
    tables: SlipTables,
    settling: boolean,
  ): Promise<void> {
    await this.#planning.catch(() => {});
    if (run !== this.#run) return;
    const { project, figures } = inputs;
    const making = this.#give(ground, tables).then(() =>
      this.engines.plan.ask('makePlan', { project: withoutPoints(project), figures, settling }),
    );
    this.#planning = making;
    const made = await making;
    if (run === this.#run) this.events.onPlan(unpackPlan(made, ground.there.stations), inputs);
  }

  /** Hands the plan worker what it does not hold yet. */
  async #give(ground: DayGround, tables: SlipTables): Promise<void> {
    const [{ columns }, wayBack] = [ground.there, ground.back?.columns ?? null];
    const { plan } = this.engines;
    // A worker that was lost starts here, and holds nothing.
    plan.wake();
    if (this.#given.columns !== columns) await plan.ask('setGround', columns);
    this.#given = { ...this.#given, columns };
    if (this.#given.wayBack !== wayBack) await plan.ask('setWayBackGround', wayBack);
    this.#given = { ...this.#given, wayBack };
    if (this.#given.tables === tables) return;
    await plan.ask('setTables', tables);
    this.#given = { ...this.#given, tables, others: [] };
  }

  #work(label: string, done: number | null): void {
    this.events.onWork({ label, done, isQuiet: this.#isQuiet });
  }
}
