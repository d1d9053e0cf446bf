import type { LngLat } from '../core/domain/coordinates';
import type { Problem } from '../core/domain/problem';
import type { TerrainRef } from '../core/domain/project';
import { ProblemError } from '../core/domain/raster';
import type { OpenTerrain, RasterAnswers, ReadTracks } from '../worker/ground-calls';
import { activateLine, addNotes, addTerrain, replaceProject, startElsewhere } from './edits';
import type { Session } from './session.svelte';

/** A question with a few answers, asked beside the page. null: put away without an answer. */
export interface Choice {
  readonly title: string;
  readonly detail: string;
  readonly choices: readonly { readonly value: string; readonly label: string }[];
  /** Other answers may be typed. */
  readonly typed: boolean;
}
export type Ask = (choice: Choice) => Promise<string | null>;

const rasterName = /\.(tiff?|gtiff|hgt|asc|hgt\.zip)$/i;
const silent: RasterAnswers = { crs: null, elevationUnit: null };
/** Reading a strange file may never end. */
const stuckAfterMs = 1500;

/** Files in: tracks, rasters and projects, dropped or picked; the demo; what the last visit left. */
export class Opening {
  constructor(
    readonly session: Session,
    readonly ask: Ask,
  ) {
    session.engines.ground.onRestart = () => {
      session.groundLife++;
      void this.#reopen();
    };
  }

  /** What the last visit left, or else the demo. */
  async start(demo: { readonly project: string; readonly terrain: string }): Promise<void> {
    const left = await this.session.saving.open();
    if (left) {
      this.session.restore(left.project, left.history);
      for (const { key, name, file, answers } of left.files)
        if (left.project.terrain.some(({ fileName }) => fileName === name))
          await this.#terrain(key, file, name, answers);
      if (!left.project.terrain.some(({ fileName }) => demo.terrain.endsWith(fileName))) return;
      await this.#openDemoTerrain(demo.terrain);
      return;
    }
    await this.openDemo(demo);
  }

  async openDemo(demo: { readonly project: string; readonly terrain: string }): Promise<void> {
    const { session } = this;
    try {
      const terrain = this.#openDemoTerrain(demo.terrain);
      const file = await fetchBlob(demo.project);
      const { project } = await session.engines.ground.ask('readProject', {
        file,
        name: nameOf(demo.project),
      });
      await terrain;
      session.begin(project);
    } catch (reason) {
      session.trouble(reason, 'the demo');
    }
  }

  /** Opens whatever was dropped or picked, rasters first, so that tracks fall on known ground. */
  async openFiles(files: readonly File[]): Promise<void> {
    const rank = ({ name }: File) => (rasterName.test(name) ? 1 : /\.firnward\.json$/i.test(name) ? 0 : 2);
    for (const file of [...files].sort((a, b) => rank(a) - rank(b))) {
      const stop = new AbortController();
      this.session.fileWork = {
        label: `Opening ${file.name}`,
        done: null,
        isQuiet: false,
        cancel: () => stop.abort(),
      };
      try {
        if (rasterName.test(file.name)) await this.#openRaster(file, stop.signal);
        else await this.#openText(file, stop.signal);
      } catch (reason) {
        this.session.trouble(reason, file.name);
      } finally {
        this.session.fileWork = null;
      }
    }
  }

  async openAddress(url: string): Promise<void> {
    const { session } = this;
    const stop = new AbortController();
    session.fileWork = { label: `Opening ${url}`, done: null, isQuiet: false, cancel: () => stop.abort() };
    try {
      const terrain = await this.#answered((answers) =>
        session.engines.ground.ask(
          'openRemote',
          { key: url, url, answers },
          { signal: stop.signal, stuckAfterMs },
        ),
      );
      if (terrain) this.#use(terrain.opened, terrain.answers);
    } catch (reason) {
      session.trouble(reason, url);
    } finally {
      session.fileWork = null;
    }
  }

  async #openRaster(file: File, signal: AbortSignal): Promise<void> {
    const { session } = this;
    const key = file.name;
    const terrain = await this.#answered((answers) =>
      session.engines.ground.ask(
        'openRaster',
        { key, file, name: file.name, answers },
        { signal, stuckAfterMs },
      ),
    );
    if (!terrain) return;
    this.#files.set(key, { file, name: file.name, answers: terrain.answers });
    session.saving.keepFile({ key, name: file.name, file, answers: terrain.answers });
    this.#use(terrain.opened, terrain.answers);
  }

  /** Asks what the file leaves open until it is clear or the user gives up. */
  async #answered(
    open: (answers: RasterAnswers) => Promise<OpenTerrain>,
  ): Promise<{ opened: OpenTerrain; answers: RasterAnswers } | null> {
    let answers = silent;
    for (;;) {
      try {
        return { opened: await open(answers), answers };
      } catch (reason) {
        const problem = reason instanceof ProblemError ? reason.problem : null;
        const kind = problem?.question?.kind;
        if (!problem?.question || (kind !== 'crs' && kind !== 'elevation-unit')) throw reason;
        const answer = await this.ask(choiceOf(problem, problem.question.choices, kind === 'crs'));
        if (answer === null) throw reason;
        answers =
          kind === 'crs'
            ? { ...answers, crs: answer }
            : { ...answers, elevationUnit: answer as RasterAnswers['elevationUnit'] };
      }
    }
  }

  #use(terrain: OpenTerrain, answers: RasterAnswers): void {
    const { session } = this;
    session.opened = new Map(session.opened).set(terrain.name, terrain);
    for (const note of terrain.notes) session.say({ note });
    const old = session.project?.terrain.find(({ fileName }) => fileName === terrain.name);
    const ref: TerrainRef = {
      fileName: terrain.name,
      checksum: terrain.checksum,
      crs: answers.crs,
      elevationUnit: answers.elevationUnit,
      surveyed: old?.surveyed ?? terrain.surveyed,
      sigmaZM: old?.sigmaZM ?? null,
    };
    const isFar = !this.#isNearDemo(terrain.outline);
    session.edit(isFar ? startElsewhere(nameWithoutEnding(terrain.name), addTerrain(ref)) : addTerrain(ref));
  }

  async #openText(file: File, signal: AbortSignal): Promise<void> {
    const { session } = this;
    const { ground } = session.engines;
    const head = await file.slice(0, 4096).text();
    if (/\.json$/i.test(file.name) && head.includes('firnward-project')) {
      const { project, notes } = await ground.ask(
        'readProject',
        { file, name: file.name },
        { signal, stuckAfterMs },
      );
      for (const note of notes) session.say({ note });
      session.edit(replaceProject(`open ${file.name}`, project));
      return;
    }
    const onProgress = (done: number) => {
      if (session.fileWork) session.fileWork = { ...session.fileWork, done };
    };
    const read = await ground.ask(
      'readTrack',
      { file, name: file.name },
      { signal, onProgress, stuckAfterMs },
    );
    for (const note of read.notes) session.say({ note });
    const picked = await this.#pickLine(read);
    if (picked) {
      const { line } = picked;
      const edit = activateLine(`open ${file.name}`, line);
      const isFar = !this.#isNearDemo(line.points.map(({ position }) => position));
      session.edit(isFar ? startElsewhere(line.name, edit) : edit);
      this.#tellOf(picked, file.name);
    }
    const { waypoints } = read;
    if (waypoints.length > 0)
      session.say({
        note: { code: 'APP-101', subject: file.name, text: `${waypoints.length} waypoints` },
        action: { label: 'Take over as marks', run: () => session.edit(addNotes(waypoints)) },
      });
  }

  /** Whether the demo is not shown, or any of these places lies on its ground. */
  #isNearDemo(places: readonly LngLat[]): boolean {
    const demo = this.session.terrain.find(({ name }) => name === this.#demoTerrain);
    if (!demo) return true;
    return places.some(
      ([lng, lat]) => lng >= demo.west && lng <= demo.east && lat >= demo.south && lat <= demo.north,
    );
  }

  /** What was done to the track to make one line of it. */
  #tellOf({ gaps, dropped }: ReadTracks['lines'][number], subject: string): void {
    const { session } = this;
    if (dropped.length > 0)
      session.say({
        note: { code: 'APP-102', subject, text: `${dropped.length} repeated or unusable points left out` },
      });
    if (gaps.length > 0)
      session.say({
        note: {
          code: 'APP-103',
          subject,
          text: `${gaps.length} gaps in the record are crossed by straight pieces: check them on the map`,
        },
      });
  }

  async #pickLine({ lines, fileName }: ReadTracks): Promise<ReadTracks['lines'][number] | null> {
    if (lines.length < 2) return lines[0] ?? null;
    const answer = await this.ask({
      title: `${fileName} holds ${lines.length} lines.`,
      detail: 'Which one is to be planned?',
      choices: lines.map(({ line, kind }, i) => ({
        value: String(i),
        label: `${line.name || `${kind} ${i + 1}`}, ${line.points.length} points`,
      })),
      typed: false,
    });
    return answer === null ? null : (lines[Number(answer)] ?? null);
  }

  #demoTerrain: string | null = null;

  async #openDemoTerrain(url: string): Promise<void> {
    const name = nameOf(url);
    this.#demoTerrain = name;
    await this.#terrain(name, await fetchBlob(url), name, silent);
  }

  /** Opens a raster that the project already names. */
  async #terrain(key: string, file: Blob, name: string, answers: RasterAnswers): Promise<void> {
    const { session } = this;
    try {
      const terrain = await session.engines.ground.ask('openRaster', { key, file, name, answers });
      this.#files.set(key, { file, name, answers });
      session.opened = new Map(session.opened).set(name, terrain);
      session.replan();
    } catch (reason) {
      session.trouble(reason, name);
    }
  }

  readonly #files = new Map<string, { file: Blob; name: string; answers: RasterAnswers }>();

  /** A new worker holds no rasters: it is given those again that were open. */
  async #reopen(): Promise<void> {
    // All at once: what is asked of the new worker meanwhile waits for them there.
    await Promise.all(
      [...this.#files].map(([key, { file, name, answers }]) => this.#terrain(key, file, name, answers)),
    );
  }
}

const choiceOf = (problem: Problem, choices: Choice['choices'], typed: boolean): Choice => ({
  title: problem.title,
  detail: problem.remedy,
  choices,
  typed,
});

const nameWithoutEnding = (name: string): string => name.replace(/\.[a-z0-9]+$/i, '');

const nameOf = (url: string): string => url.split('/').at(-1) ?? url;

async function fetchBlob(url: string): Promise<Blob> {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`${url}: ${response.status}`);
  return response.blob();
}
