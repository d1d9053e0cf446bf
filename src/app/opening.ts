import { isProjectName } from '../core/files/file-kind';
import { stuckAfterMs, type Ask } from './asking';
import { replaceProject } from './edits';
import { isWorldFileName } from '../core/files/raster/world-file';
import type { RasterAnswers } from '../worker/ground-calls';
import { RastersIn, silent } from './rasters-in';
import type { Session } from './session.svelte';
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
  readonly #rasters: RastersIn;
  readonly #tracks: TracksIn;

  constructor(
    readonly session: Session,
    ask: Ask,
  ) {
    this.#rasters = new RastersIn(session, ask);
    this.#tracks = new TracksIn(session, ask, (places) => this.#rasters.isNearDemo(places));
  }

  /** What the last visit left, or else the demo. */
  async start(demo: Demo): Promise<void> {
    this.#rasters.demoName = nameOf(demo.terrain);
    const left = await this.session.saving.open();
    if (!left) return this.openDemo(demo);
    const isUsed = (name: string) => left.project.terrain.some(({ fileName }) => fileName === name);
    // The ground first: the line is not shown as if there were none.
    await Promise.all([
      ...left.files
        .filter(({ name }) => isUsed(name))
        .map(({ key, name, file, answers }) => this.#rasters.openKept(key, { name, file, answers })),
      ...(isUsed(nameOf(demo.terrain)) ? [this.#openDemoTerrain(demo.terrain)] : []),
    ]);
    this.session.restore(left.project, left.history);
  }

  async openDemo(demo: Demo): Promise<void> {
    const { session } = this;
    try {
      const terrain = this.#openDemoTerrain(demo.terrain);
      const file = await fetchBlob(demo.project);
      const ask = { file, name: nameOf(demo.project) };
      const { project } = await session.engines.ground.ask('readProject', ask);
      await terrain;
      session.begin(project);
    } catch (reason) {
      session.trouble(reason, 'the demo');
    }
  }

  /** Opens whatever was dropped or picked, rasters first, so that tracks fall on known ground. */
  async openFiles(files: readonly File[]): Promise<void> {
    const rank = (file: File) => (isRaster(file) ? 1 : isProjectName(file.name) ? 0 : 2);
    const rasters = files.filter(isRaster);
    const isBeside = (file: File) => rasters.some((raster) => belongsTo(raster, file));
    for (const file of files.filter((one) => !isBeside(one)).sort((a, b) => rank(a) - rank(b)))
      await this.#work(file.name, async (signal, onProgress) =>
        isRaster(file)
          ? this.#rasters.openFile(file, await besideOf(file, files), signal)
          : this.#openText(file, signal, onProgress),
      );
  }

  openAddress(url: string): Promise<void> {
    return this.#work(url, (signal) => this.#rasters.openAddress(url, signal));
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
      session.trouble(reason, subject);
    } finally {
      session.fileWork = null;
    }
  }

  async #openText(file: File, signal: AbortSignal, onProgress: (done: number) => void): Promise<void> {
    const { session } = this;
    const { name } = file;
    if (!(await isProject(file))) return this.#tracks.openFile(file, signal, onProgress);
    const read = await session.engines.ground.ask('readProject', { file, name }, { signal, stuckAfterMs });
    for (const note of read.notes) session.say({ note });
    session.edit(replaceProject(`open ${name}`, read.project));
  }

  async #openDemoTerrain(url: string): Promise<void> {
    const name = nameOf(url);
    await this.#rasters.openKept(name, { file: await fetchBlob(url), name, answers: silent });
  }
}

const stemOf = (name: string): string => name.replace(/\.[^.]*$/, '');

/** A world file, or coarser pictures or a mask of the raster's. */
const belongsTo = (raster: File, { name }: File): boolean =>
  (isWorldFileName(name) && stemOf(name) === stemOf(raster.name)) ||
  (/\.(ovr|msk)$/i.test(name) && stemOf(name) === raster.name);

async function besideOf(raster: File, files: readonly File[]): Promise<Partial<RasterAnswers>> {
  const own = files.filter((file) => belongsTo(raster, file));
  const world = own.find(({ name }) => isWorldFileName(name));
  return {
    ...(world && { worldFile: await world.slice(0, 4096).text() }),
    beside: own.filter((file) => file !== world).map(({ name }) => name),
  };
}

const nameOf = (url: string): string => url.split('/').at(-1) ?? url;

async function fetchBlob(url: string): Promise<Blob> {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`${url}: ${response.status}`);
  return response.blob();
}
