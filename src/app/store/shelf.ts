import { allOrNothing, copiesOf, editsOf, type KeptProject } from './database';
import type { Device } from './device';
import { Journal, keptForMs } from './journal';

/** Every project on this device. */
export class Shelf {
  constructor(readonly device: Device) {}

  /** Last edited first; those that were deleted lately among them. */
  async list(): Promise<KeptProject[]> {
    const all = await (await this.device.open()).getAll('projects');
    return all.sort((a, b) => b.editedMs - a.editedMs);
  }

  /** The project that was opened last and is still there; null: none is. */
  async current(): Promise<string | null> {
    const db = await this.device.open();
    const id = await db.get('device', 'current');
    const entry = id === undefined ? undefined : await db.get('projects', id);
    if (entry && entry.deletedMs === null) return entry.id;
    return (await this.list()).find(({ deletedMs }) => deletedMs === null)?.id ?? null;
  }

  async setCurrent(id: string): Promise<void> {
    await (await this.device.open()).put('device', id, 'current');
  }

  async journal(id: string): Promise<Journal | null> {
    const entry = await (await this.device.open()).get('projects', id);
    return entry ? new Journal(this.device, id, entry.revision) : null;
  }

  newJournal(): Journal {
    return new Journal(this.device, crypto.randomUUID(), null);
  }

  /** @param deletedMs null: takes a deleted project back. */
  async setDeleted(id: string, deletedMs: number | null): Promise<void> {
    await allOrNothing(await this.device.open(), ['projects'], async (tx) => {
      const entry = await tx.objectStore('projects').get(id);
      if (entry) await tx.objectStore('projects').put({ ...entry, deletedMs });
    });
  }

  /** Deleted projects are gone for good after thirty days. */
  async sweep(nowMs: number): Promise<void> {
    for (const { id, deletedMs } of await this.list())
      if (deletedMs !== null && deletedMs < nowMs - keptForMs) await this.#remove(id);
  }

  async #remove(id: string): Promise<void> {
    const stores = ['projects', 'journal', 'copies'] as const;
    await allOrNothing(await this.device.open(), [...stores], async (tx) => {
      await tx.objectStore('journal').delete(editsOf(id));
      for (const kind of ['base', 'aside'] as const)
        await tx.objectStore('copies').delete(copiesOf(id, kind));
      await tx.objectStore('projects').delete(id);
    });
  }
}
