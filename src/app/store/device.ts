import { openDatabase, type Database } from './database';

/** This device's storage: opened when first needed, and anew after the browser has closed it under the page. */
export class Device {
  /** This page, as long as it lives. */
  readonly tab = crypto.randomUUID();
  #opening: Promise<Database> | null = null;

  constructor(readonly connect = openDatabase) {}

  /** @throws where the browser gives no storage; the next call tries again. */
  open(): Promise<Database> {
    if (this.#opening) return this.#opening;
    const opening = this.connect(() => {
      if (this.#opening === opening) this.#opening = null;
    });
    this.#opening = opening;
    opening.catch(() => this.#forget(opening));
    return opening;
  }

  /** The connection does not answer any more: the next call opens another. */
  reopen(): void {
    const opening = this.#opening;
    this.#opening = null;
    void opening?.then((db) => db.close()).catch(() => {});
  }

  #forget(opening: Promise<Database>): void {
    if (this.#opening === opening) this.#opening = null;
  }
}
