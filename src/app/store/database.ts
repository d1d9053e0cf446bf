import { openDB, type DBSchema, type IDBPDatabase, type IDBPTransaction, type StoreNames } from 'idb';
import type { Project } from '../../core/domain/project';
import type { Edit } from './history';

/** A project on this device, without what is in it. */
export interface KeptProject {
  readonly id: string;
  readonly name: string;
  /** Sequence number of the last edit that is done. */
  readonly position: number;
  /** Counts every write. Who finds another number than the one last seen was overtaken by another tab. */
  readonly revision: number;
  /** The tab that wrote last. */
  readonly writer: string;
  readonly editedMs: number;
  /** About what it takes on this device. */
  readonly bytes: number;
  /** When it was deleted: it can be taken back for a while. null: it was not. */
  readonly deletedMs: number | null;
}

/** A whole copy of a project: the ground that edits stand on, or a state that was undone and then edited over. */
export interface WholeCopy {
  readonly project: string;
  readonly kind: 'base' | 'aside';
  /** The edit after which it was so; of states put aside, their order. */
  readonly seq: number;
  readonly name: string;
  readonly atMs: number;
  readonly value: Project;
}

export interface KeptEdit extends Edit {
  readonly project: string;
}

/** A raster file that is kept on this device, so that a reload finds it again. */
export interface KeptRaster {
  /** The page's name for it: two files of one name are two. */
  readonly key: string;
  readonly name: string;
  /** The file itself where it lies in the database; null: it lies in the origin's private file system. */
  readonly file: Blob | null;
  /** SHA-256; null or absent: not known. */
  readonly checksum?: string | null;
  readonly sizeBytes?: number;
  readonly answers: {
    readonly crs: string | null;
    readonly elevationUnit: 'm' | 'ft' | 'usft' | 'cm' | null;
    readonly worldFile?: string | null;
    readonly beside?: readonly string[];
  };
}

export interface Schema extends DBSchema {
  projects: { key: string; value: KeptProject };
  journal: { key: [project: string, seq: number]; value: KeptEdit };
  copies: { key: [project: string, kind: WholeCopy['kind'], seq: number]; value: WholeCopy };
  /** `current`: the project that was opened last. */
  device: { key: 'current'; value: string };
  files: { key: string; value: KeptRaster };
}

export type Database = IDBPDatabase<Schema>;
type Writing<S extends StoreNames<Schema>> = IDBPTransaction<Schema, S[], 'readwrite'>;
type Upgrading = IDBPTransaction<Schema, StoreNames<Schema>[], 'versionchange'>;

export const databaseName = 'firnward';
const databaseVersion = 2;

/**
 * @param onLost the connection is of no use any more: closed by the browser, or given up for a newer page in another tab.
 * @throws where the browser gives no storage (private window, blocked, broken, held by an older page).
 */
export function openDatabase(onLost: () => void): Promise<Database> {
  return new Promise((resolve, reject) => {
    let isBlocked = false;
    openDB<Schema>(databaseName, databaseVersion, {
      upgrade(db, from, _to, tx) {
        if (from === 0) db.createObjectStore('files', { keyPath: 'key' });
        db.createObjectStore('projects', { keyPath: 'id' });
        db.createObjectStore('journal', { keyPath: ['project', 'seq'] });
        db.createObjectStore('copies', { keyPath: ['project', 'kind', 'seq'] });
        db.createObjectStore('device');
        // All of it or nothing: version 1 stands as it was where this fails.
        if (from === 1) bringTheOneProject(db, tx).catch(() => tx.abort());
      },
      blocked() {
        isBlocked = true;
        reject(new Error('an older Firnward is open in another tab; close that tab'));
      },
      blocking(_current, _next, event) {
        (event.target as IDBDatabase).close();
        onLost();
      },
      terminated: onLost,
    }).then((db) => {
      if (isBlocked) db.close();
      else resolve(db);
    }, reject);
  });
}

/** Version 1 held one project: its journal becomes that of the first of several. */
async function bringTheOneProject(db: Database, tx: Upgrading): Promise<void> {
  const old = tx as unknown as IDBPTransaction<unknown, string[], 'versionchange'>;
  const base = (await old.objectStore('state').get('base')) as { seq: number; project: Project } | undefined;
  const position = ((await old.objectStore('state').get('position')) as number | undefined) ?? 0;
  const edits = (await old.objectStore('edits').getAll()) as Edit[];
  if (base) {
    const project = crypto.randomUUID();
    const atMs = edits.at(-1)?.atMs ?? Date.now();
    const { name } = base.project;
    for (const edit of edits) await tx.objectStore('journal').put({ ...edit, project });
    await tx
      .objectStore('copies')
      .put({ project, kind: 'base', seq: base.seq, name: '', atMs, value: base.project });
    await tx.objectStore('projects').put({
      id: project,
      name,
      position,
      revision: 1,
      writer: '',
      editedMs: atMs,
      bytes: sizeOf(base.project),
      deletedMs: null,
    });
    await tx.objectStore('device').put(project, 'current');
  }
  for (const gone of ['edits', 'state']) (db as unknown as IDBPDatabase).deleteObjectStore(gone);
}

/** All of the work or nothing of it: whatever goes wrong in the middle, nothing is written. */
export async function allOrNothing<S extends StoreNames<Schema>, T>(
  db: Database,
  stores: S[],
  work: (tx: Writing<S>) => Promise<T>,
): Promise<T> {
  const tx = db.transaction(stores, 'readwrite', { durability: 'strict' });
  // Where the work fails, its own reason is the one to tell.
  tx.done.catch(() => {});
  try {
    const result = await work(tx);
    await tx.done;
    return result;
  } catch (reason) {
    try {
      tx.abort();
    } catch {
      // It is over already.
    }
    throw reason;
  }
}

/** Bytes a value takes, roughly. */
export const sizeOf = (value: unknown): number => JSON.stringify(value).length;

export const editsOf = (project: string, fromSeq = 0, toSeq = Infinity): IDBKeyRange =>
  IDBKeyRange.bound([project, fromSeq], [project, toSeq]);

export const copiesOf = (project: string, kind: WholeCopy['kind'], fromSeq = -Infinity): IDBKeyRange =>
  IDBKeyRange.bound([project, kind, fromSeq], [project, kind, Infinity]);
