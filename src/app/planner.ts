import type { Figures } from '../core/assumptions/figures';
import type { Project } from '../core/domain/project';
import type { Plan } from '../core/domain/segment';
import { hardnesses } from '../core/domain/snow';
import { partyWithDevices } from '../core/plan/condition-matrix';
import { snowsOnLine } from '../core/plan/snows';
import type { SlipTables } from '../core/slip/tables';
import type { OpenTerrain } from '../worker/ground-calls';
import { unpackPlan } from '../worker/plan-columns';
import type { ProfileColumns } from '../worker/profile-columns';
import { isCancelled, WorkerLost } from '../worker/protocol';
import type { Engines } from './engines';
import { GroundShelf, type ReadGround } from './ground-shelf';
import { groundQuestion, teamQuestion, withoutPoints } from './questions';
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
  onPlan(plan: Plan): void;
  /** Something is being worked on; null when all is done. */
  onWork(work: PlanWork | null): void;
  onTrouble(reason: unknown): void;
  /** What the refined answer waits for, so as not to keep the processor from it. */
  afterFirst(): Promise<void>;
}

/**
 * Keeps the plan in step with its inputs: first from a quick look at the ground and coarse slip tables, marked as settling,
 * then from the whole. Ground and tables are slow and kept while their own inputs stay the same; the plan itself is quick.
 * The newest question wins: an older run stops at its next wait, and what only it needed is cancelled.
 */
export class Planner {
  #run = 0;
  readonly #quickGround: GroundShelf;
  readonly #wholeGround: GroundShelf;
  readonly #tables: TableShelf;
  readonly #deviceTables: TableShelf;
  /** What the plan worker holds. */
  #given: { columns: ProfileColumns | null; tables: SlipTables | null } = { columns: null, tables: null };
  #planning: Promise<unknown> = Promise.resolve();
  #isQuiet = false;

  constructor(
    readonly engines: Engines,
    readonly events: PlannerEvents,
  ) {
    const reading = (done: number) => this.#work('Reading the ground', done);
    this.#quickGround = new GroundShelf(engines.ground, reading);
    this.#wholeGround = new GroundShelf(engines.ground, reading);
    this.#tables = new TableShelf(engines.slip);
    this.#deviceTables = new TableShelf(engines.slip);
    engines.plan.onRestart = () => (this.#given = { columns: null, tables: null });
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

  /** Stops whatever is being worked on; the last plan stays. */
  cancel(): void {
    this.#run++;
    this.#quickGround.clear();
    this.#wholeGround.clear();
    this.#tables.clear();
    this.events.onWork(null);
  }

  async #follow(run: number, inputs: PlanInputs): Promise<void> {
    const { project, figures, terrain } = inputs;
    const isStale = () => run !== this.#run;
    const whole = groundQuestion(project, figures, terrain, 'whole');
    const quick = groundQuestion(project, figures, terrain, 'quick');
    this.#tables.setTeam(teamQuestion(project, figures));
    const everySnow = snowsOnLine(project, hardnesses);
    const knowsAll = this.#tables.has(everySnow, 'final');
    const snows = knowsAll ? everySnow : snowsOnLine(project);

    const isWhole = this.#wholeGround.has(whole);
    const isFinal = this.#tables.has(snows, 'final');
    if (!isWhole || !isFinal) {
      if (!isWhole) this.#wholeGround.clear();
      const [ground, tables] = await Promise.all([
        isWhole ? this.#wholeGround.read(whole) : this.#quickGround.read(quick),
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
      this.#wholeGround.read(whole),
      this.#tables.tables(snows, 'final'),
    ]);
    if (isStale()) return;
    await this.#plan(run, inputs, ground, tables, false);
    this.#isQuiet = true;
    if (isStale() || knowsAll) return;
    // What hardness would flip a segment needs the tables of every hardness.
    this.#work('Trying other snow', null);
    const every = await this.#tables.tables(everySnow, 'final');
    if (!isStale()) await this.#plan(run, inputs, ground, every, false);
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
    const [{ columns }, tables] = await Promise.all([
      this.#wholeGround.read(groundQuestion(project, figures, terrain, 'whole')),
      this.#tables.tables(snows, 'final'),
    ]);
    signal.throwIfAborted();
    await this.#give(columns, tables);
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
    { project, figures }: PlanInputs,
    { columns, stations }: ReadGround,
    tables: SlipTables,
    settling: boolean,
  ): Promise<void> {
    await this.#planning.catch(() => {});
    if (run !== this.#run) return;
    const making = this.#give(columns, tables).then(() =>
      this.engines.plan.ask('makePlan', { project: withoutPoints(project), figures, settling }),
    );
    this.#planning = making;
    const made = await making;
    if (run === this.#run) this.events.onPlan(unpackPlan(made, stations));
  }

  /** Hands the plan worker what it does not hold yet. */
  async #give(columns: ProfileColumns, tables: SlipTables): Promise<void> {
    const { plan } = this.engines;
    // A worker that was lost starts here, and holds nothing.
    plan.wake();
    if (this.#given.columns !== columns) await plan.ask('setGround', columns);
    this.#given.columns = columns;
    if (this.#given.tables !== tables) await plan.ask('setTables', tables);
    this.#given.tables = tables;
  }

  #work(label: string, done: number | null): void {
    this.events.onWork({ label, done, isQuiet: this.#isQuiet });
  }
}
