import type { LngLat } from '../core/domain/coordinates';
import type { Project, TerrainRef } from '../core/domain/project';
import { ProblemError } from '../core/domain/raster';
import type { OpenTerrain, RasterAnswers } from '../worker/ground-calls';
import { stuckAfterMs, type Ask } from './asking';
import { addTerrain, startElsewhere } from './edits';
import type { Session } from './session.svelte';
import { keptByItselfBytes, type KeptRasters } from './store/kept-rasters';
import { whyNot } from './project-writer.svelte';

export const silent: RasterAnswers = { crs: null, elevationUnit: null };

interface HeldFile {
  readonly file: Blob;
  readonly name: string;
  readonly answers: RasterAnswers;
}

type Opened = Readonly<Record<string, OpenTerrain>>;

/** Two files of one name are two. */
const keyOf = ({ name, size, lastModified }: File): string => `${size} ${lastModified} ${name}`;

/** Elevation rasters in: asks what a file leaves open, and keeps what is needed to open it again. */
export class RastersIn {
  /** The demo's raster, beside the page: own ground far from it takes its place. */
  demoUrl: string | null = null;
  readonly #files = new Map<string, HeldFile>();
  #demo: Promise<Blob | null> | null = null;

  constructor(
    readonly session: Session,
    readonly ask: Ask,
  ) {
    session.engines.ground.onRestart = () => {
      session.groundLife++;
      void this.#reopen();
    };
    session.onTerrain = () => void this.#followTerrain();
  }

  /** @param known what is known of it beforehand: the files that came with it */
  async openFile(file: File, known: Partial<RasterAnswers>, signal: AbortSignal): Promise<void> {
    const { session } = this;
    const { name } = file;
    const key = keyOf(file);
    const { opened, answers } = await this.#answered({ ...silent, ...known }, (given) =>
      session.engines.ground.ask('openRaster', { key, file, name, answers: given }, { signal, stuckAfterMs }),
    );
    if (!(await this.#isTheOne(opened))) return;
    this.#files.set(key, { file, name, answers });
    this.#use(opened, answers);
    if (file.size <= keptByItselfBytes) await this.keep(key);
  }

  /** Keeps the bytes of an open file on this device. */
  async keep(key: string): Promise<void> {
    const { session } = this;
    const held = this.#files.get(key);
    if (!held) return;
    const { name, answers, file } = held;
    const checksum = session.opened[name]?.checksum ?? null;
    try {
      await session.saving.rasters.keep({ key, name, answers, checksum }, file);
    } catch (reason) {
      const text = `is open, but not kept on this device: ${whyNot(reason)}. Open it again after a reload.`;
      session.voice.say({ note: { code: 'APP-111', subject: name, text } });
    }
  }

  /** Those whose bytes lie on this device, whichever project they are for. */
  kept(): ReturnType<KeptRasters['list']> {
    return this.session.saving.rasters.list().catch(() => []);
  }

  /** It stays open as long as the page does. */
  async forget(key: string): Promise<void> {
    await this.session.saving.rasters
      .drop(key)
      .catch((reason: unknown) => this.session.voice.trouble(reason, key));
  }

  keyOfOpen(fileName: string): string | null {
    return this.session.opened[fileName]?.key ?? null;
  }

  /** What could be kept of an open raster; null: it has no file here, as the demo's and those on servers. */
  offer(fileName: string): { readonly key: string; readonly sizeBytes: number } | null {
    const key = this.keyOfOpen(fileName);
    const held = key === null || fileName === this.demoName ? undefined : this.#files.get(key);
    return key !== null && held ? { key, sizeBytes: held.file.size } : null;
  }

  async openAddress(url: string, signal: AbortSignal): Promise<void> {
    const terrain = await this.#answered(silent, (answers) =>
      this.session.engines.ground.ask('openRemote', { key: url, url, answers }, { signal, stuckAfterMs }),
    );
    this.#use(terrain.opened, terrain.answers);
  }

  /** Opens those rasters of a project that are at hand: kept on this device, or the demo's. Says which are not. */
  async openFor({ terrain }: Project, isComing: (fileName: string) => boolean): Promise<Opened> {
    const kept = await this.session.saving.rasters.list().catch(() => []);
    const opened: Record<string, OpenTerrain> = {};
    const open = async (ref: TerrainRef) => {
      const found = kept
        .map(({ raster }) => raster)
        .filter((raster) => raster.name === ref.fileName && isSame(ref.checksum, raster.checksum));
      const raster = found.find(({ checksum }) => checksum === ref.checksum) ?? found[0];
      const file = raster ? await this.session.saving.rasters.read(raster) : await this.#demoFile(ref);
      const answers = raster?.answers ?? silent;
      const held = file && { file, name: ref.fileName, answers };
      const terrain = held && (await this.#openHeld(raster?.key ?? ref.fileName, held));
      if (terrain && isSame(ref.checksum, terrain.checksum)) opened[ref.fileName] = terrain;
      else if (!isComing(ref.fileName)) this.#missing(ref);
    };
    await Promise.all(terrain.map(open));
    return opened;
  }

  /** Lets go of rasters that the open project does not use. */
  async closeOthers(): Promise<void> {
    const used = new Set(this.session.terrain.map(({ key }) => key));
    for (const key of [...this.#files.keys()].filter((each) => !used.has(each))) {
      this.#files.delete(key);
      await this.session.engines.ground.ask('closeRaster', key);
    }
  }

  /** The demo's raster; fetched once, and as early as somebody asks. */
  fetchDemo(): Promise<Blob | null> {
    this.#demo ??= fetch(this.demoUrl ?? '').then(
      (response) => (response.ok ? response.blob() : null),
      () => null,
    );
    return this.#demo;
  }

  #demoFile({ fileName }: TerrainRef): Promise<Blob | null> {
    return this.demoUrl === null || fileName !== this.demoName ? Promise.resolve(null) : this.fetchDemo();
  }

  async #openHeld(key: string, held: HeldFile): Promise<OpenTerrain | null> {
    try {
      const terrain = await this.session.engines.ground.ask('openRaster', { key, ...held });
      this.#files.set(key, held);
      return terrain;
    } catch (reason) {
      this.session.voice.trouble(reason, held.name);
      return null;
    }
  }

  #missing({ fileName }: TerrainRef): void {
    const text =
      'the plan was made with this elevation raster, which is not on this device. Drop it anywhere on the page, or fetch it again under Ground; until then no mode is given there.';
    this.session.voice.say({ note: { code: missingCode, subject: fileName, text } });
  }

  get demoName(): string | null {
    return this.demoUrl?.split('/').at(-1) ?? null;
  }

  /** Whether the demo is not shown, or any of these places lies on its ground. */
  isNearDemo(places: readonly LngLat[]): boolean {
    const demo = this.session.terrain.find(({ name }) => name === this.demoName);
    if (!demo) return true;
    return places.some(
      ([lng, lat]) => lng >= demo.west && lng <= demo.east && lat >= demo.south && lat <= demo.north,
    );
  }

  /** Asks until the file is clear. @throws the file's problem where the user gives up. */
  async #answered(
    known: RasterAnswers,
    open: (answers: RasterAnswers) => Promise<OpenTerrain>,
  ): Promise<{ opened: OpenTerrain; answers: RasterAnswers }> {
    let answers = known;
    for (;;) {
      try {
        return { opened: await open(answers), answers };
      } catch (reason) {
        const problem = reason instanceof ProblemError ? reason.problem : null;
        const question = problem?.question;
        if (!problem || !question || (question.kind !== 'crs' && question.kind !== 'elevation-unit'))
          throw reason;
        const isCrs = question.kind === 'crs';
        const answer = await this.ask({
          title: `${problem.subject}: ${problem.title}.`,
          detail: problem.remedy,
          choices: question.choices,
          typed: isCrs,
        });
        if (answer === null) throw reason;
        answers = isCrs
          ? { ...answers, crs: answer }
          : { ...answers, elevationUnit: answer as RasterAnswers['elevationUnit'] };
      }
    }
  }

  #use(terrain: OpenTerrain, answers: RasterAnswers): void {
    const { session } = this;
    const { name } = terrain;
    session.voice.unsay(name, missingCode);
    session.opened = { ...session.opened, [name]: terrain };
    for (const note of terrain.notes) session.voice.say({ note });
    const old = session.project?.terrain.find(({ fileName }) => fileName === name);
    const ref: TerrainRef = {
      fileName: name,
      checksum: terrain.checksum,
      crs: answers.crs,
      elevationUnit: answers.elevationUnit,
      surveyed: old?.surveyed ?? terrain.surveyed,
      sigmaZM: old?.sigmaZM ?? null,
    };
    const isFar = !this.isNearDemo(terrain.outline);
    session.edit(
      isFar ? startElsewhere(name.replace(/\.[a-z0-9]+$/i, ''), addTerrain(ref)) : addTerrain(ref),
    );
  }

  /** A raster that was taken away is closed, since its cells weigh; its file stays at hand for an undo, which opens it again. */
  async #followTerrain(): Promise<void> {
    const { session } = this;
    const names = new Set(session.project?.terrain.map(({ fileName }) => fileName));
    const unused = Object.values(session.opened).filter(
      ({ key, name }) => !names.has(name) && this.#files.has(key),
    );
    for (const { key, name } of unused) {
      session.opened = without(session.opened, name);
      session.voice.unsay(name);
      void session.engines.ground.ask('closeRaster', key);
    }
    const wanted = [...this.#files].filter(([, { name }]) => names.has(name) && !session.opened[name]);
    await Promise.all(wanted.map(this.#openAgain));
  }

  readonly #openAgain = async ([key, held]: [string, HeldFile]): Promise<void> => {
    const { session } = this;
    const terrain = await this.#openHeld(key, held);
    const ref = session.project?.terrain.find(({ fileName }) => fileName === held.name);
    if (!terrain || !ref || !isSame(ref.checksum, terrain.checksum)) return;
    session.opened = { ...session.opened, [held.name]: terrain };
    session.replan();
  };

  /** A new worker holds no rasters: it is given those again that were open, all at once, before anything else. */
  async #reopen(): Promise<void> {
    const used = new Set(this.session.terrain.map(({ key }) => key));
    await Promise.all([...this.#files].filter(([key]) => used.has(key)).map(this.#openAgain));
  }

  /** A file with the name of one the plan was made with may still be another one: the guide says whether to use it. */
  async #isTheOne({ name, checksum }: OpenTerrain): Promise<boolean> {
    const ref = this.session.project?.terrain.find(({ fileName }) => fileName === name);
    if (!ref || isSame(ref.checksum, checksum)) return true;
    const answer = await this.ask({
      title: `${name} is not the file this plan was made with.`,
      detail: 'It has the same name and other contents: slopes and modes may change.',
      choices: [{ value: 'use', label: 'Use it' }],
      typed: false,
    });
    return answer === 'use';
  }
}

const missingCode = 'APP-110';

const without = (opened: Opened, name: string): Opened =>
  Object.fromEntries(Object.entries(opened).filter(([each]) => each !== name));

/** Unknown checksums contradict nothing. */
const isSame = (a: string | null | undefined, b: string | null | undefined): boolean =>
  a == null || b == null || a === b;
