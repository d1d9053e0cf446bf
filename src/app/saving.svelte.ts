import type { Project } from '../core/domain/project';
import type { Edit, History } from './store/history';
import { Journal, type KeptFile } from './store/journal';

export type SaveState =
  | { readonly kind: 'opening' }
  | { readonly kind: 'saved'; readonly atMs: number }
  | { readonly kind: 'saving' }
  | { readonly kind: 'not-saved'; readonly why: string };

/** Writes every edit to this device at once, and says truly whether it is there. */
export class Saving {
  state = $state.raw<SaveState>({ kind: 'opening' });
  #journal: Journal | null = null;
  #queue: Promise<void> = Promise.resolve();
  #waiting = 0;

  /** What was left by the last visit; null on a first one, or where the device keeps nothing. */
  async open(): Promise<{ project: Project; history: History; files: readonly KeptFile[] } | null> {
    if (!(await isOnlyWriter())) {
      this.state = { kind: 'not-saved', why: 'another tab has the plan open; edits here stay in this tab' };
      return null;
    }
    try {
      this.#journal = await Journal.open('firnward', () => this.#fail('the browser closed its storage'));
      const left = await this.#journal.restore();
      this.state = { kind: 'saved', atMs: Date.now() };
      return left && { ...left, files: await this.#journal.files() };
    } catch (reason) {
      this.#fail(`the browser gives no storage here (${words(reason)})`);
      return null;
    }
  }

  begin(project: Project): void {
    this.#write((journal) => journal.begin(project));
  }

  add(edit: Edit, project: Project): void {
    this.#write((journal) => journal.add(edit, project));
  }

  moved(history: History): void {
    this.#write((journal) => journal.moveTo(history));
  }

  keepFile(file: KeptFile): void {
    this.#write((journal) => journal.keepFile(file));
  }

  older(beforeSeq: number, count: number): Promise<Edit[]> {
    return this.#journal?.older(beforeSeq, count) ?? Promise.resolve([]);
  }

  /** Resolves when everything written so far is on the device. */
  settled(): Promise<void> {
    return this.#queue;
  }

  #write(write: (journal: Journal) => Promise<void>): void {
    const journal = this.#journal;
    if (!journal) return;
    this.#waiting++;
    if (this.state.kind === 'saved') this.state = { kind: 'saving' };
    this.#queue = this.#queue.then(async () => {
      try {
        await write(journal);
        if (--this.#waiting === 0 && this.state.kind === 'saving')
          this.state = { kind: 'saved', atMs: Date.now() };
      } catch (reason) {
        this.#waiting--;
        this.#fail(
          reason instanceof DOMException && reason.name === 'QuotaExceededError'
            ? "the browser's storage is full"
            : words(reason),
        );
      }
    });
  }

  /** From here on edits live in this page only: a journal with a hole in it would restore nonsense. */
  #fail(why: string): void {
    this.#journal = null;
    this.state = { kind: 'not-saved', why };
  }
}

const words = (reason: unknown): string => (reason instanceof Error ? reason.message : String(reason));

/** One tab writes; the lock is held until the tab closes. */
async function isOnlyWriter(): Promise<boolean> {
  if (!navigator.locks) return true;
  return new Promise((resolve) => {
    void navigator.locks.request('firnward-journal', { ifAvailable: true }, (lock) => {
      resolve(lock !== null);
      return lock === null ? undefined : new Promise(() => {});
    });
  });
}
