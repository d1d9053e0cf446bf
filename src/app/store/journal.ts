import type { Project } from '../../core/domain/project';
import { allOrNothing, copiesOf, editsOf, sizeOf, type KeptProject, type WholeCopy } from './database';
import type { Device } from './device';
import { atHandMax, position, type Edit, type History } from './history';
import { rebuilt } from './rebuilt';

export interface Present {
  readonly project: Project;
  readonly history: History;
}

/** A state that would be lost: undone and then edited over, or another tab's. */
export type Aside = Pick<WholeCopy, 'name' | 'atMs' | 'value'>;

/** A project as it was left. */
export interface Restored extends Present {
  readonly entry: KeptProject;
  /** What could not be read, in words; null: everything was. */
  readonly lost: string | null;
}

/** Another tab has written to the project since this one last saw it: nothing was written. */
export class Overtaken extends Error {
  override readonly name = 'Overtaken';
}

const storedMax = 20_000;
const baseEvery = 50;
const basesKept = 2;
const asidesKept = 50;
const dayMs = 86_400_000;
/** Earlier states are kept for so long, and the last thousand edits whatever the clock says. */
export const keptForMs = 30 * dayMs;

/** One project's edits and whole copies. Every write is one transaction: after a crash the last whole edit is there. */
export class Journal {
  #revision: number | null;
  #sinceBase = 0;

  /** @param revision null: a new project, which stands on the device after the first `catchUp`. */
  constructor(
    readonly device: Device,
    readonly id: string,
    revision: number | null,
  ) {
    this.#revision = revision;
  }

  /** Project and history as they were left, as far as they can be read; null where nothing of it can. */
  async restore(): Promise<Restored | null> {
    const db = await this.device.open();
    const tx = db.transaction(['projects', 'journal', 'copies']);
    const entry = await tx.objectStore('projects').get(this.id);
    if (!entry) return null;
    const copies = await tx.objectStore('copies').getAll(copiesOf(this.id, 'base'));
    const farthest = Math.min(entry.position, ...copies.map(({ seq }) => seq));
    const from = Math.max(1, Math.min(farthest + 1, entry.position - atHandMax + 1));
    const edits = await tx.objectStore('journal').getAll(editsOf(this.id, from));
    const older = await tx.objectStore('journal').count(editsOf(this.id, 0, from - 1));
    this.#revision = entry.revision;
    const found = rebuilt(copies, edits, entry.position);
    if (!found) return null;
    const { history, ...rest } = found;
    return { ...rest, entry, history: { ...history, olderOnDisk: history.olderOnDisk || older > 0 } };
  }

  /** Writes an edit and the project after it. */
  async add(edit: Edit, project: Project): Promise<void> {
    const isBase = this.#sinceBase + 1 >= baseEvery;
    let written = false;
    await allOrNothing(await this.device.open(), ['projects', 'journal', 'copies'], async (tx) => {
      const entry = await this.#entry(tx.objectStore('projects'));
      const journal = tx.objectStore('journal');
      const copies = tx.objectStore('copies');
      await journal.delete(editsOf(this.id, edit.seq));
      await journal.put({ ...edit, project: this.id });
      if (edit.seq > storedMax) await journal.delete(editsOf(this.id, 0, edit.seq - storedMax));
      // A copy that lies after the new edit stood on edits that are gone now.
      await copies.delete(IDBKeyRange.bound([this.id, 'base', edit.seq], [this.id, 'base', Infinity]));
      const bases = await copies.getAllKeys(copiesOf(this.id, 'base'));
      written = isBase || bases.length === 0;
      if (written) {
        await copies.put(this.#base(edit.seq, project, edit.atMs));
        for (const key of bases.slice(0, 1 - basesKept)) await copies.delete(key);
      }
      const bytes = entry.bytes + sizeOf(edit.change) + (written ? sizeOf(project) : 0);
      await tx
        .objectStore('projects')
        .put(this.#next(entry, { position: edit.seq, editedMs: edit.atMs, name: project.name, bytes }));
    });
    this.#sinceBase = written ? 0 : this.#sinceBase + 1;
  }

  /** After undo or redo: only the place among the edits moved. */
  async moveTo({ project, history }: Present): Promise<void> {
    await allOrNothing(await this.device.open(), ['projects'], async (tx) => {
      const entry = await this.#entry(tx.objectStore('projects'));
      await tx
        .objectStore('projects')
        .put(this.#next(entry, { position: position(history), name: project.name }));
    });
  }

  /** Writes all that is at hand: a new project, or after writes that failed or were another tab's. */
  async catchUp({ project, history }: Present, overtaken: Aside | null = null): Promise<void> {
    const stores = ['projects', 'journal', 'copies', 'device'] as const;
    const seq = position(history);
    const atMs = history.edits[history.done - 1]?.atMs ?? Date.now();
    const revision = await allOrNothing(await this.device.open(), [...stores], async (tx) => {
      const old =
        this.#revision === null ? null : await this.#entry(tx.objectStore('projects'), overtaken !== null);
      const journal = tx.objectStore('journal');
      await journal.delete(editsOf(this.id, history.edits[0]?.seq ?? 1));
      for (const edit of history.edits) await journal.put({ ...edit, project: this.id });
      await tx.objectStore('copies').delete(copiesOf(this.id, 'base'));
      await tx.objectStore('copies').put(this.#base(seq, project, atMs));
      if (overtaken) await this.#putAside(tx.objectStore('copies'), overtaken);
      const entry: KeptProject = {
        id: this.id,
        name: project.name,
        position: seq,
        revision: (old?.revision ?? 0) + 1,
        writer: this.device.tab,
        editedMs: atMs,
        bytes: sizeOf(project) + sizeOf(history.edits),
        deletedMs: null,
      };
      await tx.objectStore('projects').put(entry);
      if (!old) await tx.objectStore('device').put(this.id, 'current');
      return entry.revision;
    });
    this.#sinceBase = 0;
    this.#revision = revision;
  }

  /** Whether another tab has written since. */
  async isOvertaken(): Promise<boolean> {
    const entry = await (await this.device.open()).get('projects', this.id);
    return entry !== undefined && entry.revision !== this.#revision && entry.writer !== this.device.tab;
  }

  /** Edits before those at hand, oldest first. */
  async older(beforeSeq: number, count: number): Promise<Edit[]> {
    const db = await this.device.open();
    return db.getAll('journal', editsOf(this.id, beforeSeq - count, beforeSeq - 1));
  }

  /** States that were undone and then edited over, newest first. */
  async asides(): Promise<WholeCopy[]> {
    const db = await this.device.open();
    return (await db.getAll('copies', copiesOf(this.id, 'aside'))).reverse();
  }

  async putAside(aside: Aside): Promise<void> {
    await allOrNothing(await this.device.open(), ['copies'], (tx) =>
      this.#putAside(tx.objectStore('copies'), aside),
    );
  }

  /** Lets go of edits far behind the present that are older than thirty days. */
  async thin(nowMs: number): Promise<void> {
    await allOrNothing(await this.device.open(), ['projects', 'journal'], async (tx) => {
      const entry = await this.#entry(tx.objectStore('projects'));
      const oldestKept = Math.max(1, entry.position - atHandMax + 1);
      let cursor = await tx.objectStore('journal').openCursor(editsOf(this.id, 0, oldestKept - 1));
      while (cursor && cursor.value.atMs < nowMs - keptForMs) {
        await cursor.delete();
        cursor = await cursor.continue();
      }
    });
  }

  /** The oldest are let go: whole copies, hundreds of which an hour of trying would leave on the device. */
  async #putAside(
    copies: {
      getAllKeys(of: IDBKeyRange): Promise<[string, string, number][]>;
      put(copy: WholeCopy): Promise<unknown>;
      delete(key: IDBKeyRange): Promise<void>;
    },
    aside: Aside,
  ): Promise<void> {
    const kept = await copies.getAllKeys(copiesOf(this.id, 'aside'));
    await copies.put({ ...aside, project: this.id, kind: 'aside', seq: (kept.at(-1)?.[2] ?? 0) + 1 });
    const oldest = kept.at(-asidesKept);
    if (oldest) await copies.delete(IDBKeyRange.bound([this.id, 'aside', -Infinity], oldest));
  }

  #base(seq: number, value: Project, atMs: number): WholeCopy {
    return { project: this.id, kind: 'base', seq, name: '', atMs, value };
  }

  /** @throws Overtaken where the last word is another tab's. */
  async #entry(
    store: { get(id: string): Promise<KeptProject | undefined> },
    isOvertaking = false,
  ): Promise<KeptProject> {
    const entry = await store.get(this.id);
    if (!entry) throw new Overtaken('the project is no longer on this device');
    if (!isOvertaking && entry.revision !== this.#revision && entry.writer !== this.device.tab)
      throw new Overtaken('another tab has newer edits');
    return entry;
  }

  #next(entry: KeptProject, change: Partial<KeptProject>): KeptProject {
    return { ...entry, ...change, revision: entry.revision + 1, writer: this.device.tab };
  }
}
