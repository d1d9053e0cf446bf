import type { LngLat } from '../core/domain/coordinates';
import type { TerrainRef } from '../core/domain/project';
import { ProblemError } from '../core/domain/raster';
import type { OpenTerrain, RasterAnswers } from '../worker/ground-calls';
import { stuckAfterMs, type Ask } from './asking';
import { addTerrain, startElsewhere } from './edits';
import type { Session } from './session.svelte';

export const silent: RasterAnswers = { crs: null, elevationUnit: null };

interface HeldFile {
  readonly file: Blob;
  readonly name: string;
  readonly answers: RasterAnswers;
}

/** Elevation rasters in: asks what a file leaves open, and keeps what is needed to open it again. */
export class RastersIn {
  /** The demo's raster: own ground far from it takes its place. */
  demoName: string | null = null;
  readonly #files = new Map<string, HeldFile>();

  constructor(
    readonly session: Session,
    readonly ask: Ask,
  ) {
    session.engines.ground.onRestart = () => {
      session.groundLife++;
      void this.#reopen();
    };
  }

  /** @param known what is known of it beforehand: the files that came with it */
  async openFile(file: File, known: Partial<RasterAnswers>, signal: AbortSignal): Promise<void> {
    const { session } = this;
    const { name } = file;
    const terrain = await this.#answered({ ...silent, ...known }, (answers) =>
      session.engines.ground.ask('openRaster', { key: name, file, name, answers }, { signal, stuckAfterMs }),
    );
    this.#files.set(name, { file, name, answers: terrain.answers });
    session.saving.keepFile({ key: name, name, file, answers: terrain.answers });
    this.#use(terrain.opened, terrain.answers);
  }

  async openAddress(url: string, signal: AbortSignal): Promise<void> {
    const terrain = await this.#answered(silent, (answers) =>
      this.session.engines.ground.ask('openRemote', { key: url, url, answers }, { signal, stuckAfterMs }),
    );
    this.#use(terrain.opened, terrain.answers);
  }

  /** Opens a raster that the project already names. */
  async openKept(key: string, held: HeldFile): Promise<void> {
    const { session } = this;
    try {
      const terrain = await session.engines.ground.ask('openRaster', { key, ...held });
      this.#files.set(key, held);
      session.opened = { ...session.opened, [held.name]: terrain };
      session.replan();
    } catch (reason) {
      session.trouble(reason, held.name);
    }
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
    session.opened = { ...session.opened, [name]: terrain };
    for (const note of terrain.notes) session.say({ note });
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

  /** A new worker holds no rasters: it is given those again that were open, all at once, before anything else. */
  async #reopen(): Promise<void> {
    await Promise.all([...this.#files].map(([key, held]) => this.openKept(key, held)));
  }
}
