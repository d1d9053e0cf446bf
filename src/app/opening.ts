import type { Project } from '../core/domain/project';
import { isProjectName } from '../core/files/file-kind';
import { stuckAfterMs, type Ask } from './asking';
import { belongsTo, besideOf } from './beside';
import { RastersIn } from './rasters-in';
import { remember, remembered } from './remembered';
import type { Taken } from './saving.svelte';
import type { Session } from './session.svelte';
import { isLink, textOfLink } from './share-link';
import { sound } from './sound';
import { TracksIn } from './tracks-in';

/** Where the invented demo lies beside the page. */
export interface Demo {
  readonly project: string;
  readonly terrain: string;
}

const isRaster = ({ name }: File): boolean => /\.(tiff?|gtiff|hgt|asc|hgt\.zip)$/i.test(name);

/** By its name; by its first words where the name is that of any JSON. */
async function isProject(file: File): Promise<boolean> {
  if (isProjectName(file.name)) return true;
  return /\.json$/i.test(file.name) && (await file.slice(0, 4096).text()).includes('firnward-project');
}

/** Files in: tracks, rasters and projects, dropped or picked; the demo; what the last visit left. */
export class Opening {
  readonly rasters: RastersIn;
  readonly #tracks: TracksIn;

  constructor(
    readonly session: Session,
    readonly ask: Ask,
    readonly demo: Demo,
  ) {
    this.rasters = new RastersIn(session, ask);
    this.rasters.demoUrl = demo.terrain;
    this.#tracks = new TracksIn(session, ask, (places) => this.rasters.isNearDemo(places));
  }

  /** What the last visit left, or else the demo. */
  async start(): Promise<void> {
    const { session } = this;
    const left = await session.saving.lastOne();
    try {
      if (left && (await this.enter(left))) return;
    } catch (reason) {
      session.voice.trouble(reason, 'the last visit');
    }
    if (!left && session.saving.state.kind === 'opening' && remembered('keeps') === 'yes')
      session.voice.say({
        note: {
          code: 'APP-112',
          subject: 'This device',
          text: 'the projects kept here are gone: the browser took them away, or they were deleted with its data. Open them from your project files.',
        },
      });
    await this.openDemo();
  }

  /** A project from this device takes the place of the one that is shown. False: nothing of it can be shown. */
  async enter(taken: Taken): Promise<boolean> {
    const { session } = this;
    const [checked, opened] = await Promise.all([
      sound(taken, session.engines.ground),
      this.rasters.openFor(taken.project, () => false),
    ]);
    const lost = checked?.lost ?? taken.lost;
    if (lost !== null)
      session.voice.say({
        note: {
          code: 'APP-113',
          subject: taken.entry.name || 'The project',
          text: checked ? `${lost}; everything before is there` : 'it is damaged and could not be opened',
        },
      });
    if (!checked) {
      void taken.writer.leave();
      return false;
    }
    session.enter(checked, opened);
    if (checked.project !== taken.project && checked.history !== taken.history)
      taken.writer.putAside({
        name: 'as it was kept, damaged',
        atMs: taken.entry.editedMs,
        value: taken.project,
      });
    void this.rasters.closeOthers();
    remember('keeps', 'yes');
    return true;
  }

  async openDemo(): Promise<void> {
    const { session, demo } = this;
    try {
      void this.rasters.fetchDemo();
      const response = await fetch(demo.project);
      if (!response.ok) throw new Error(`${demo.project}: ${response.status}`);
      const file = await response.blob();
      const { project } = await session.engines.ground.ask('readProject', { file, name: 'the demo' });
      await this.begin(project);
    } catch (reason) {
      session.voice.trouble(reason, 'the demo');
    }
  }

  /** A project that is not on this device yet takes the place of the one that is shown, which stays on the device. */
  async begin(project: Project, isComing: (fileName: string) => boolean = () => false): Promise<void> {
    this.session.begin(project, await this.rasters.openFor(project, isComing));
    void this.rasters.closeOthers();
    remember('keeps', 'yes');
  }

  /** Opens whatever was dropped or picked, rasters first, so that tracks fall on known ground. */
  async openFiles(files: readonly File[]): Promise<void> {
    const rank = (file: File) => (isRaster(file) ? 1 : isProjectName(file.name) ? 0 : 2);
    const isComing = (fileName: string) => files.some(({ name }) => name === fileName);
    const rasters = files.filter(isRaster);
    const isBeside = (file: File) => rasters.some((raster) => belongsTo(raster, file));
    for (const file of files.filter((one) => !isBeside(one)).sort((a, b) => rank(a) - rank(b)))
      await this.#work(file.name, async (signal, onProgress) =>
        isRaster(file)
          ? this.rasters.openFile(file, await besideOf(file, files), signal)
          : this.#openText(file, signal, onProgress, isComing),
      );
  }

  /** A plan held in the page's own address: shown to the guide by name, and opened beside what is there. */
  async openLink(hash: string): Promise<void> {
    if (!isLink(hash)) return;
    const { session } = this;
    // A reload must not ask again.
    history.replaceState(null, '', location.pathname + location.search);
    const text = await textOfLink(hash);
    if (!text.ok) return session.voice.say({ problem: text.problem });
    try {
      const name = 'the link';
      const file = new Blob([text.value]);
      const { project, notes } = await session.engines.ground.ask(
        'readProject',
        { file, name },
        { stuckAfterMs },
      );
      const answer = await this.ask({
        title: `This link holds a plan: ${project.name || 'without a name'}, ${project.line.points.length} points.`,
        detail: 'It opens as a project of its own; what is on this device stays as it is.',
        choices: [{ value: 'open', label: 'Open it' }],
        typed: false,
      });
      if (answer !== 'open') return;
      for (const note of notes) session.voice.say({ note });
      await this.begin(project);
    } catch (reason) {
      session.voice.trouble(reason, 'the link');
    }
  }

  openAddress(url: string): Promise<void> {
    return this.#work(url, (signal) => this.rasters.openAddress(url, signal));
  }

  async #work(
    subject: string,
    open: (signal: AbortSignal, onProgress: (done: number) => void) => Promise<void>,
  ): Promise<void> {
    const { session } = this;
    const stop = new AbortController();
    const tell = (done: number | null) => {
      session.fileWork = { label: `Opening ${subject}`, done, isQuiet: false, cancel: () => stop.abort() };
    };
    tell(null);
    try {
      await open(stop.signal, tell);
    } catch (reason) {
      session.voice.trouble(reason, subject, 'What is open stays as it was.');
    } finally {
      session.fileWork = null;
    }
  }

  async #openText(
    file: File,
    signal: AbortSignal,
    onProgress: (done: number) => void,
    isComing: (fileName: string) => boolean,
  ): Promise<void> {
    const { session } = this;
    const { name } = file;
    if (!(await isProject(file))) return this.#tracks.openFile(file, signal, onProgress);
    const read = await session.engines.ground.ask('readProject', { file, name }, { signal, stuckAfterMs });
    for (const note of read.notes) session.voice.say({ note });
    const before = session.project?.name;
    await this.begin(read.project, isComing);
    session.voice.announcement = `Opened ${name}. ${before || 'The project before'} is kept under Projects.`;
  }
}
