import { applyFigures } from '../core/assumptions/apply';
import { defaultFigures, type Figures } from '../core/assumptions/figures';
import type { LngLat } from '../core/domain/coordinates';
import type { Project, TerrainRef } from '../core/domain/project';
import type { Plan, Segment } from '../core/domain/segment';
import type { RunOutTrace } from '../core/domain/station';
import type { TrackPoint } from '../core/domain/track';
import type { Units } from '../core/wording/units';
import type { OpenTerrain } from '../worker/ground-calls';
import { durationText } from '../core/wording/time';
import { isCancelled, WorkerLost } from '../worker/protocol';
import { replaceProject, type Edit } from './edits';
import type { Engines } from './engines';
import { themeNames, type ThemeName } from './look/themes';
import { placeAt } from './map/stations';
import { Planner, type PlanInputs } from './planner';
import { remembered } from './remembered';
import { Saving, type Taken } from './saving.svelte';
import type { Present } from './store/journal';
import {
  emptyHistory,
  projectAt,
  record,
  redo,
  undo,
  undoneTip,
  type History,
  type Step,
} from './store/history';
import { Voice } from './voice.svelte';

/** Long work under way: said with a percentage where there is one, and with a way to stop it. */
export interface Work {
  readonly label: string;
  readonly done: number | null;
  /** Only makes better what is shown already. */
  readonly isQuiet: boolean;
  readonly cancel: () => void;
}

const noTerrain: readonly TerrainRef[] = [];

/** A track with times, read back after the day. */
export interface RecordedDay {
  readonly name: string;
  readonly points: readonly TrackPoint[];
}

/** Where no map can say that the line is shown, nobody waits for it longer than this after the plan. */
const lineAtMostMs = 2000;

/** What the user has loaded and chosen; everything shown is derived from it. */
export class Session {
  project = $state.raw<Project | null>(null);
  history = $state.raw<History>(emptyHistory);
  /** Every raster that is open, by its file's name; the project says which are used. */
  opened = $state.raw<Readonly<Record<string, OpenTerrain>>>({});
  plan = $state.raw<Plan | null>(null);
  /** What the plan was made from; the same object for every refinement of one plan. */
  planFrom = $state.raw<PlanInputs | null>(null);
  planWork = $state.raw<Work | null>(null);
  fileWork = $state.raw<Work | null>(null);
  /** Counts the lives of the ground worker: tiles it was making when it ended are asked for again. */
  groundLife = $state(0);

  cursorM = $state.raw<number | null>(null);
  /** Where the climbers are while their way through a stretch is watched, lead first. */
  teamM = $state.raw<readonly number[] | null>(null);
  /** The place last chosen by a click or a key, which a passing pointer does not change. */
  cursorHeldM = $state.raw<number | null>(null);
  selectedId = $state.raw<number | null>(null);
  traces = $state.raw<readonly RunOutTrace[]>([]);

  /** A line that is only tried, shown on the map. */
  preview = $state.raw<readonly LngLat[] | null>(null);
  /** The mark whose form is open. */
  markId = $state.raw<string | null>(null);
  /** A plan that was kept to compare with. */
  reference = $state.raw<Plan | null>(null);
  /** A recorded day to lay over the plan. */
  recorded = $state.raw<RecordedDay | null>(null);

  theme = $state.raw<ThemeName>(themeNames.find((name) => name === remembered('theme')) ?? 'day');
  units = $state.raw<Units>(remembered('units') === 'imperial' ? 'imperial' : 'metric');

  readonly saving = new Saving();
  readonly voice: Voice;

  /** Told after an edit, an undo or a redo that uses other rasters. */
  onTerrain: () => void = () => {};

  /** Resolves when the first planned line is on the map, or it is clear that it will not be soon: all else waits for it. */
  readonly lineShown: Promise<void>;
  showsLine: () => void = () => {};

  readonly figures = $derived.by((): Figures => {
    const applied = applyFigures(this.project?.assumptions ?? {});
    return applied.ok ? applied.value : defaultFigures;
  });

  /** A value of its own, so that edits elsewhere in the project leave the ground as it is. */
  readonly #terrainRefs = $derived(this.project?.terrain ?? noTerrain);
  /** The rasters in use, in the order of the project. */
  readonly terrain = $derived(this.#terrainRefs.flatMap(({ fileName }) => this.opened[fileName] ?? []));

  /** What there is to plan from: another object whenever any of it is another. */
  readonly inputs = $derived.by((): PlanInputs | null => {
    const { project, figures, terrain } = this;
    return project && { project, figures, terrain };
  });

  /** The selected segment, with how slips end there once that is known. */
  readonly selected = $derived.by((): Segment | null => {
    const segment = this.plan?.segments.find(({ id }) => id === this.selectedId) ?? null;
    return segment && this.#shares?.of === segment ? { ...segment, shares: this.#shares.shares } : segment;
  });

  #shares = $state.raw<{ of: Segment; shares: Segment['shares'] } | null>(null);

  /** A step whose outcome is still to be said, with the plan before it. */
  #unsaid: { readonly name: string; readonly before: Plan | null } | null = null;
  readonly #planner: Planner;
  #stopTraces: AbortController | null = null;

  constructor(readonly engines: Engines) {
    this.lineShown = new Promise((resolve) => (this.showsLine = resolve));
    this.voice = new Voice(
      () => this.replan(),
      () => this.showsLine(),
    );
    this.#planner = new Planner(engines, {
      onPlan: (plan, from) => this.#showPlan(plan, from),
      afterFirst: () => this.lineShown,
      onWork: (work) => {
        this.planWork = work && { ...work, cancel: () => this.#planner.cancel() };
      },
      onTrouble: (reason) => this.voice.trouble(reason, 'the plan'),
    });
  }

  /** Takes a project as it was left, with its history and the rasters it names that could be opened. */
  enter(taken: Taken, opened: Session['opened']): void {
    this.saving.enter(taken);
    this.#show(taken, opened);
  }

  /** Starts with a project that is nobody's edit; the one before stays on the device. */
  begin(project: Project, opened: Session['opened']): void {
    this.saving.begin(project);
    this.#show({ project, history: emptyHistory }, opened);
  }

  edit({ name, make }: Edit): void {
    const before = this.project;
    if (!before) return;
    const after = make(before);
    const nowMs = Date.now();
    const recorded = record(this.history, name, [before, after], nowMs);
    if (!recorded) return;
    const tip = undoneTip(this.history, before);
    const aside = tip && { ...tip, atMs: nowMs };
    this.history = recorded.history;
    this.project = after;
    this.saving.add(recorded.edit, { project: after, history: this.history }, aside);
    this.#announceStep(name);
    this.replan();
    if (after.terrain !== before.terrain) this.onTerrain();
  }

  undo(): void {
    this.#step(this.project && undo(this.history, this.project), 'undone');
    if (this.history.done === 0) void this.fetchOlder();
  }

  redo(): void {
    this.#step(this.project && redo(this.history, this.project), 'done again');
  }

  /** The project as it stood when so many of the edits at hand were done: an edit like any other. */
  goBackTo(done: number, name: string): void {
    if (this.project) this.edit(replaceProject(name, projectAt(this.history, this.project, done)));
  }

  /** Where a pointer passes; away from the line the place chosen last is shown again. */
  pass(alongM: number | null): void {
    this.cursorM = alongM ?? this.cursorHeldM;
  }

  select(segmentId: number | null): void {
    this.selectedId = segmentId;
    if (segmentId === null) {
      this.cursorM = this.cursorHeldM = null;
      this.#stopTraces?.abort();
      this.traces = [];
    } else if (this.inputs) this.#planner.tryAbilities(this.inputs);
    void this.#askShares();
  }

  /** Puts the shared cursor on a place, selects the segment that holds it, and shows where a slide from there would go. */
  goTo(alongM: number): void {
    this.cursorM = alongM;
    this.cursorHeldM = alongM;
    this.select(this.#segmentAt(alongM)?.id ?? null);
    const place = this.plan && placeAt(this.plan.stations, alongM);
    if (place) void this.#trace(place);
  }

  /** A segment at its steepest station: the one that its slip card speaks of. */
  goToSegment(segmentId: number): void {
    const segment = this.plan?.segments.find(({ id }) => id === segmentId);
    if (!segment || !this.plan) return;
    let [steepestM, steepestDeg] = [segment.fromM, -Infinity];
    for (const { alongM, designSlopeDeg } of this.plan.stations)
      if (alongM >= segment.fromM && alongM < segment.toM && (designSlopeDeg ?? -Infinity) > steepestDeg)
        [steepestM, steepestDeg] = [alongM, designSlopeDeg ?? -Infinity];
    this.goTo(steepestM);
  }

  async #trace(position: LngLat): Promise<void> {
    const { project } = this;
    if (!project) return;
    this.#stopTraces?.abort();
    const stop = (this.#stopTraces = new AbortController());
    try {
      const snow = this.selected?.snow ?? project.snow;
      const ask = {
        position,
        snow,
        marks: project.marks,
        figures: this.figures,
        rasterKeys: this.terrain.map(({ key }) => key),
      };
      this.traces = await this.engines.ground.ask('traceRunOut', ask, { signal: stop.signal });
    } catch (reason) {
      if (!isCancelled(reason)) this.voice.trouble(reason, 'the run-out');
    }
  }

  /** Does something with the whole plan in the plan worker, said as work that can be stopped. null: there is no line. */
  async withWholePlan<T>(
    label: string,
    use: (
      project: Project,
      options: { signal: AbortSignal; onProgress: (done: number) => void },
    ) => Promise<T>,
  ): Promise<T | null> {
    const { inputs } = this;
    if (!inputs || inputs.project.line.points.length < 2) return null;
    const stop = new AbortController();
    const { signal } = stop;
    const work = (done: number | null) => {
      this.fileWork = { label, done, isQuiet: false, cancel: () => stop.abort() };
    };
    work(null);
    try {
      await this.#planner.prepareAll(inputs, signal);
      return await use(inputs.project, { signal, onProgress: work });
    } finally {
      this.fileWork = null;
    }
  }

  replan(): void {
    const { inputs } = this;
    if (!inputs) return;
    if (inputs.project.line.points.length < 2) {
      this.#planner.cancel();
      this.plan = this.planFrom = null;
      this.showsLine();
      return;
    }
    this.#planner.update(inputs);
  }

  /** Nothing of the project before stays in view. */
  #show({ project, history }: Present, opened: Session['opened']): void {
    this.plan = this.planFrom = null;
    this.#shares = null;
    this.selectedId = null;
    this.cursorM = this.cursorHeldM = null;
    this.traces = [];
    this.preview = null;
    this.markId = null;
    this.reference = null;
    this.recorded = null;
    this.opened = opened;
    this.history = history;
    this.project = project;
    this.replan();
  }

  /** On a border the one that begins there; at the end of the line the last. */
  #segmentAt(alongM: number | null): Segment | undefined {
    if (alongM === null) return undefined;
    const { segments } = this.plan ?? { segments: [] };
    return segments.find(({ fromM, toM }) => alongM >= fromM && alongM < toM) ?? segments.at(-1);
  }

  #showPlan(plan: Plan, from: PlanInputs): void {
    this.#announcePlan(plan);
    this.plan = plan;
    this.planFrom = from;
    setTimeout(this.showsLine, lineAtMostMs);
    // Numbers of segments change with every plan; the chosen place stays chosen.
    if (this.selectedId !== null) this.selectedId = this.#segmentAt(this.cursorHeldM)?.id ?? null;
    void this.#askShares();
  }

  /** Slips at the selected segment are simulated when it is looked at, not before. */
  async #askShares(): Promise<void> {
    const segment = this.plan?.segments.find(({ id }) => id === this.selectedId);
    if (!segment) return;
    const { decidedAt, snow, goingDown } = segment;
    try {
      const shares = await this.engines.plan.ask('segmentShares', { decidedAt, snow, goingDown });
      this.#shares = { of: segment, shares };
    } catch (reason) {
      // A newer plan is on its way and asks again.
      if (!(reason instanceof WorkerLost)) this.voice.trouble(reason, 'the slip card');
    }
  }

  #announceStep(name: string): void {
    this.voice.announcement = name;
    this.#unsaid = { name, before: this.#unsaid?.before ?? this.plan };
  }

  /** What the last step came to, once the whole answer is there. */
  #announcePlan(plan: Plan): void {
    if (plan.settling || !this.#unsaid) return;
    const { name, before } = this.#unsaid;
    this.#unsaid = null;
    const [now, was] = [plan, before].map((each) => each && durationText(each.totals.time.defaultS));
    const grave = plan.warnings.filter(({ weight }) => weight === 3).length;
    this.voice.announcement = `${name}: time ${now}${was && was !== now ? `, before ${was}` : ', as before'}; ${plan.segments.length} segments, ${grave} grave warnings`;
  }

  #step(step: Step | null, done: string): void {
    if (!step) return;
    const before = this.project;
    this.history = step.history;
    this.project = step.project;
    this.saving.moved({ project: step.project, history: step.history });
    this.#announceStep(`${step.name} ${done}`);
    this.replan();
    if (step.project.terrain !== before?.terrain) this.onTerrain();
  }

  /** Edits before those at hand. */
  async fetchOlder(): Promise<void> {
    const first = this.history.edits[0];
    if (this.history.olderOnDisk && first) await this.#fetchOlder(first.seq);
  }

  async #fetchOlder(beforeSeq: number): Promise<void> {
    const older = await this.saving.older(beforeSeq, 200);
    const { history } = this;
    if (history.edits[0]?.seq !== beforeSeq) return;
    this.history = {
      edits: [...older, ...history.edits],
      done: history.done + older.length,
      olderOnDisk: older.length === 200,
    };
  }
}
