import type { Project } from '../core/domain/project';
import { ProjectWriter, whyNot, type SaveState } from './project-writer.svelte';
import { Device } from './store/device';
import { emptyHistory, type Edit } from './store/history';
import type { Aside, Present, Restored } from './store/journal';
import { KeptRasters } from './store/kept-rasters';
import { Shelf } from './store/shelf';

export type { SaveState };

/** A project from the device, ready to be entered. */
export interface Taken extends Restored {
  readonly writer: ProjectWriter;
}

/** The project that is open, and the device it is kept on. */
export class Saving {
  readonly shelf: Shelf;
  /** Whether the browser promised not to clear this page's storage by itself; null: not asked yet. */
  isPersistent = $state.raw<boolean | null>(null);
  readonly rasters: KeptRasters;
  /** Why the storage could not be opened at the start. */
  #noStorage = $state.raw<SaveState>({ kind: 'opening' });
  #writer = $state.raw<ProjectWriter | null>(null);

  constructor(device = new Device()) {
    this.shelf = new Shelf(device);
    this.rasters = new KeptRasters(device);
  }

  get state(): SaveState {
    return this.#writer?.state ?? this.#noStorage;
  }

  /** The open project among those on this device. */
  get currentId(): string | null {
    return this.#writer?.journal.id ?? null;
  }

  get writer(): ProjectWriter | null {
    return this.#writer;
  }

  /** The project that was open last, as it was left; null: there is none, or nothing can be read. */
  async lastOne(): Promise<Taken | null> {
    try {
      const id = await this.shelf.current();
      return id === null ? null : await this.take(id);
    } catch (reason) {
      this.#noStorage = { kind: 'not-saved', why: whyNot(reason) };
      return null;
    }
  }

  /** @param byForce takes it from the tab that has it. */
  async take(id: string, byForce = false): Promise<Taken | null> {
    const journal = await this.shelf.journal(id);
    const restored = await journal?.restore();
    if (!journal || !restored) return null;
    const writer = await ProjectWriter.goOn(journal, restored, {
      editedMs: restored.entry.editedMs,
      byForce,
    });
    return { ...restored, writer };
  }

  /** From now on edits go to this project. Nothing may be waited for between this and showing it. */
  enter({ writer, project, history, lost }: Taken): void {
    void this.#writer?.leave();
    this.#writer = writer;
    writer.present = { project, history };
    if (lost !== null) writer.tryAgain();
    // Only tidying: where it fails, nothing is lost.
    else writer.write((journal) => journal.thin(Date.now()).catch(() => {}));
    this.shelf.setCurrent(writer.journal.id).catch(() => {});
  }

  /** Puts another project on the device; the open one stays open. */
  async putBeside(project: Project): Promise<void> {
    const { currentId } = this;
    await this.shelf.newJournal().catchUp({ project, history: emptyHistory });
    if (currentId !== null) await this.shelf.setCurrent(currentId);
  }

  /** Keeps another project from here on, beside those that are kept already. */
  begin(project: Project): void {
    void this.#writer?.leave();
    this.#writer = ProjectWriter.begin(this.shelf.newJournal(), { project, history: emptyHistory });
  }

  add(edit: Edit, present: Present, aside: Aside | null): void {
    this.#writer?.add(edit, present, aside);
    if (this.isPersistent === null) void this.#askToPersist();
  }

  /** Asked once there is something to lose. */
  async #askToPersist(): Promise<void> {
    this.isPersistent = false;
    try {
      this.isPersistent = await navigator.storage.persist();
    } catch {
      // No such promise here.
    }
  }

  /** The project was written to a file as it stands. */
  isInFile(): void {
    if (this.#writer) this.#writer.editsSinceFile = 0;
  }

  moved(present: Present): void {
    this.#writer?.moved(present);
  }

  older(beforeSeq: number, count: number): Promise<Edit[]> {
    return this.#writer?.journal.older(beforeSeq, count) ?? Promise.resolve([]);
  }
}
