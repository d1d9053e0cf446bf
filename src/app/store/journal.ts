import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Project } from '../../core/domain/project';
import { applyChange } from './change';
import { atHandMax, position, type Edit, type History } from './history';

/** The project as it stood after one edit, so that reopening need not replay the whole journal. */
interface Base {
  readonly seq: number;
  readonly project: Project;
}

/** A file the user opened, kept so that a reload finds it again. */
export interface KeptFile {
  readonly key: string;
  readonly name: string;
  readonly file: Blob;
  readonly answers: {
    readonly crs: string | null;
    readonly elevationUnit: 'm' | 'ft' | 'usft' | 'cm' | null;
  };
}

interface Schema extends DBSchema {
  edits: { key: number; value: Edit };
  state: { key: 'base' | 'position'; value: Base | number };
  files: { key: string; value: KeptFile };
}

const storedMax = 20_000;
const baseEvery = 50;

/** Edits and project on this device. Every write is one transaction: after a crash the last whole edit is there. */
export class Journal {
  #sinceBase = 0;

  private constructor(readonly db: IDBPDatabase<Schema>) {}

  /** @throws where the browser gives no storage (private window, blocked, broken): the caller says so and goes on without. */
  static async open(name = 'firnward', onLost: () => void = () => {}): Promise<Journal> {
    const db = await openDB<Schema>(name, 1, {
      upgrade(fresh) {
        fresh.createObjectStore('edits', { keyPath: 'seq' });
        fresh.createObjectStore('state');
        fresh.createObjectStore('files', { keyPath: 'key' });
      },
      blocking: (_current, _next, event) => (event.target as IDBDatabase).close(),
      terminated: onLost,
    });
    return new Journal(db);
  }

  /** The project and its history as they were left; null on a first visit. */
  async restore(): Promise<{ project: Project; history: History } | null> {
    const tx = this.db.transaction(['edits', 'state']);
    const base = (await tx.objectStore('state').get('base')) as Base | undefined;
    const done = ((await tx.objectStore('state').get('position')) as number | undefined) ?? 0;
    if (!base) return null;
    const [from, to] = [Math.min(base.seq, done) + 1, Math.max(base.seq, done)];
    const between = from > to ? [] : await tx.objectStore('edits').getAll(IDBKeyRange.bound(from, to));
    let project: unknown = base.project;
    if (done >= base.seq) for (const edit of between) project = applyChange(project, edit.change, 'do');
    else for (const edit of between.reverse()) project = applyChange(project, edit.change, 'undo');
    const edits = await tx
      .objectStore('edits')
      .getAll(IDBKeyRange.lowerBound(Math.max(1, done - atHandMax + 1)));
    const older = await tx.objectStore('edits').count(IDBKeyRange.upperBound(done - atHandMax));
    return {
      project: project as Project,
      history: { edits, done: edits.filter(({ seq }) => seq <= done).length, olderOnDisk: older > 0 },
    };
  }

  /** Another project from here on: the journal starts anew. */
  async begin(project: Project): Promise<void> {
    const tx = this.db.transaction(['edits', 'state'], 'readwrite', { durability: 'strict' });
    await tx.objectStore('edits').clear();
    await tx.objectStore('state').put({ seq: 0, project }, 'base');
    await tx.objectStore('state').put(0, 'position');
    await tx.done;
    this.#sinceBase = 0;
  }

  async add(edit: Edit, project: Project): Promise<void> {
    const tx = this.db.transaction(['edits', 'state'], 'readwrite', { durability: 'strict' });
    const edits = tx.objectStore('edits');
    await edits.delete(IDBKeyRange.lowerBound(edit.seq));
    await edits.put(edit);
    if (edit.seq > storedMax) await edits.delete(IDBKeyRange.upperBound(edit.seq - storedMax));
    const base = (await tx.objectStore('state').get('base')) as Base | undefined;
    // A base that lies after the new edit stood on edits that are gone now.
    if (++this.#sinceBase >= baseEvery || base === undefined || base.seq >= edit.seq) {
      await tx.objectStore('state').put({ seq: edit.seq, project }, 'base');
      this.#sinceBase = 0;
    }
    await tx.objectStore('state').put(edit.seq, 'position');
    await tx.done;
  }

  /** After undo or redo: only the place among the edits moved. */
  async moveTo(history: History): Promise<void> {
    const tx = this.db.transaction('state', 'readwrite', { durability: 'strict' });
    await tx.store.put(position(history), 'position');
    await tx.done;
  }

  /** Edits before those at hand, oldest first. */
  older(beforeSeq: number, count: number): Promise<Edit[]> {
    return this.db.getAll('edits', IDBKeyRange.bound(beforeSeq - count, beforeSeq - 1));
  }

  files(): Promise<KeptFile[]> {
    return this.db.getAll('files');
  }

  async keepFile(file: KeptFile): Promise<void> {
    await this.db.put('files', file);
  }

  async dropFile(key: string): Promise<void> {
    await this.db.delete('files', key);
  }
}
