import { IDBFactory } from 'fake-indexeddb';
import type { Project } from '../../src/core/domain/project';
import { defaultProject } from '../../src/core/files/project';
import { Saving } from '../../src/app/saving.svelte';
import { Device } from '../../src/app/store/device';
import { emptyHistory, record, undo, undoneTip, type History } from '../../src/app/store/history';
import type { Restored } from '../../src/app/store/journal';
import { Shelf } from '../../src/app/store/shelf';

export const plain = defaultProject();
export const named = (name: string, from = plain): Project => ({ ...from, name });

/** An empty device, with a lock manager as browsers have it. */
export function freshDevice(): void {
  globalThis.indexedDB = new IDBFactory();
  Object.defineProperty(globalThis, 'navigator', {
    value: { locks: new Locks(), storage: { persist: () => Promise.resolve(false) } },
    configurable: true,
  });
}

type Held = { readonly lose: () => void };

/** What of the Web Locks interface the page uses: one holder a name, ask if free, or steal. */
class Locks {
  readonly #held = new Map<string, Held>();

  async request(
    name: string,
    { steal = false }: { steal?: boolean; ifAvailable?: boolean },
    hold: (lock: object | null) => Promise<void> | void,
  ): Promise<void> {
    const other = this.#held.get(name);
    if (other && !steal) return hold(null);
    other?.lose();
    return new Promise((resolve, reject) => {
      const held = { lose: () => reject(new DOMException('stolen', 'AbortError')) };
      this.#held.set(name, held);
      void Promise.resolve(hold({})).then(() => {
        if (this.#held.get(name) === held) this.#held.delete(name);
        resolve();
      });
    });
  }
}

/** A page with a project in it: what the session does, without the page. */
export class Tab {
  readonly saving = new Saving(new Device());
  project: Project = plain;
  history: History = emptyHistory;

  begin(project: Project): void {
    this.saving.begin(project);
    [this.project, this.history] = [project, emptyHistory];
  }

  edit(after: Project, atMs = Date.now()): void {
    const tip = undoneTip(this.history, this.project);
    const recorded = record(this.history, `name it ${after.name}`, [this.project, after], atMs);
    if (!recorded) throw new Error('Nothing changed');
    [this.project, this.history] = [after, recorded.history];
    const aside = tip && { ...tip, atMs };
    this.saving.add(recorded.edit, { project: after, history: this.history }, aside);
  }

  undo(): void {
    const step = undo(this.history, this.project);
    if (!step) throw new Error('Nothing to undo');
    [this.project, this.history] = [step.project, step.history];
    this.saving.moved(step);
  }

  async open(byForce = false, id?: string): Promise<Restored | null> {
    const which = id ?? (await this.saving.shelf.current());
    const taken = which === null ? null : await this.saving.take(which, byForce);
    if (!taken) return null;
    this.saving.enter(taken);
    [this.project, this.history] = [taken.project, taken.history];
    return taken;
  }

  get state(): string {
    return this.saving.state.kind;
  }

  async settled(): Promise<void> {
    await this.saving.writer?.settled();
  }
}

/** What another visit would find. */
export async function found(): Promise<Restored | null> {
  const shelf = new Shelf(new Device());
  const id = await shelf.current();
  return id === null ? null : ((await (await shelf.journal(id))?.restore()) ?? null);
}
