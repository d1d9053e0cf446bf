import { Overtaken, type Aside, type Journal, type Present } from './store/journal';
import type { Edit } from './store/history';
import { takeProject, type ProjectLock } from './store/project-lock';

export type SaveState =
  | { readonly kind: 'opening' }
  | { readonly kind: 'saved'; readonly atMs: number }
  | { readonly kind: 'saving' }
  /** Edits live in this page only; written as soon as the device takes them again. */
  | { readonly kind: 'not-saved'; readonly why: string }
  /** Another tab has the project: what is changed here is not kept. */
  | { readonly kind: 'elsewhere' };

type Write = (journal: Journal) => Promise<void>;

/** Writes every edit of one project to this device at once, in order, and says truly whether it is there. */
export class ProjectWriter {
  state = $state.raw<SaveState>({ kind: 'saving' });
  /** Edits since the project was last written to a file or opened from one. */
  editsSinceFile = $state.raw(0);
  /** Something was changed here that another tab kept from being written. */
  isChangedHere = $state.raw(false);

  #lock: ProjectLock | null = null;
  #queue: Promise<void> = Promise.resolve();
  #waiting = 0;
  #asked = 0;
  /** Writes up to this one are on the device, because everything was written anew after them. */
  #caughtUp = 0;
  #isBehind = false;

  private constructor(
    readonly journal: Journal,
    public present: Present,
  ) {}

  /** A project that is not on the device yet. */
  static begin(journal: Journal, present: Present): ProjectWriter {
    const writer = new ProjectWriter(journal, present);
    writer.#enqueue(async () => {
      await writer.#take();
      await writer.#catchUp();
    });
    return writer;
  }

  /** A project as it was left. Where another tab has it, nothing is written. */
  static async goOn(
    journal: Journal,
    present: Present,
    { editedMs, byForce }: { readonly editedMs: number; readonly byForce: boolean },
  ): Promise<ProjectWriter> {
    const writer = new ProjectWriter(journal, present);
    await writer.#take(byForce);
    writer.state = writer.#lock ? { kind: 'saved', atMs: editedMs } : { kind: 'elsewhere' };
    return writer;
  }

  /** @param aside what was undone before and can no longer be redone. */
  add(edit: Edit, present: Present, aside: Aside | null): void {
    this.editsSinceFile++;
    if (aside) this.putAside(aside);
    this.#change(present, (journal) => journal.add(edit, present.project));
  }

  moved(present: Present): void {
    this.#change(present, (journal) => journal.moveTo(present));
  }

  /** Keeps a state among the earlier ones. */
  putAside(aside: Aside): void {
    if (this.state.kind !== 'elsewhere') this.#enqueue(() => this.journal.putAside(aside), false);
  }

  /** Does something else with the journal, in its turn. */
  write(work: Write): void {
    if (this.state.kind !== 'elsewhere') this.#enqueue(() => work(this.journal));
  }

  /** Writes everything at hand, where the device would not take it before. */
  tryAgain(): void {
    this.#isBehind = true;
    this.#enqueue(() => Promise.resolve());
  }

  /** Takes the project from the tab that has it. What is there stays among the earlier states. */
  async overwrite(): Promise<void> {
    await this.#take(true);
    const theirs = await this.journal.restore();
    this.state = { kind: 'saving' };
    this.isChangedHere = false;
    const aside = theirs && {
      name: 'as the other tab had it',
      atMs: theirs.entry.editedMs,
      value: theirs.project,
    };
    this.#enqueue(() => this.journal.catchUp(this.present, aside));
  }

  /** Resolves when everything written so far is on the device, or it is clear that it will not be. */
  settled(): Promise<void> {
    return this.#queue;
  }

  /** Another project comes: what waits is still written. */
  async leave(): Promise<void> {
    await this.#queue;
    this.#lock?.release();
    this.#lock = null;
  }

  #change(present: Present, write: Write): void {
    this.present = present;
    if (this.state.kind === 'elsewhere') this.isChangedHere = true;
    else this.#enqueue(() => write(this.journal));
  }

  /** @param isInCatchUp writing everything anew does the work, too. */
  #enqueue(work: () => Promise<void>, isInCatchUp = true): void {
    const asked = ++this.#asked;
    this.#waiting++;
    if (this.state.kind === 'saved') this.state = { kind: 'saving' };
    this.#queue = this.#queue.then(async () => {
      if (this.state.kind === 'elsewhere') this.isChangedHere = true;
      else if (!isInCatchUp || asked > this.#caughtUp) await this.#attempt(work, isInCatchUp);
      if (--this.#waiting === 0 && this.state.kind === 'saving')
        this.state = { kind: 'saved', atMs: Date.now() };
    });
  }

  async #attempt(work: () => Promise<void>, isInCatchUp: boolean): Promise<void> {
    try {
      if (this.#isBehind) {
        await this.#catchUp();
        if (isInCatchUp) return;
      }
      await work();
    } catch (reason) {
      if (reason instanceof Overtaken) {
        this.isChangedHere = true;
        return this.#loseLock();
      }
      const wasBehind = this.#isBehind;
      this.#isBehind = true;
      if (!wasBehind && isConnectionLost(reason) && (await this.#afterReopening())) return;
      this.state = { kind: 'not-saved', why: whyNot(reason) };
    }
  }

  async #afterReopening(): Promise<boolean> {
    try {
      this.journal.device.reopen();
      await this.#catchUp();
      return true;
    } catch {
      return false;
    }
  }

  async #catchUp(): Promise<void> {
    const upTo = this.#asked;
    await this.journal.catchUp(this.present);
    this.#caughtUp = upTo;
    this.#isBehind = false;
    this.state = { kind: 'saving' };
  }

  async #take(steal = false): Promise<void> {
    this.#lock = await takeProject(this.journal.id, () => this.#loseLock(), steal);
  }

  #loseLock(): void {
    this.#lock = null;
    this.isChangedHere ||= this.#isBehind;
    this.state = { kind: 'elsewhere' };
  }
}

const nameOf = (reason: unknown): string => (reason instanceof Error ? reason.name : '');

/** What browsers say when their storage went away under the page. */
const isConnectionLost = (reason: unknown): boolean =>
  ['InvalidStateError', 'UnknownError', 'AbortError'].includes(nameOf(reason));

/** Why the device does not keep anything, in words. */
export const whyNot = (reason: unknown): string => {
  switch (nameOf(reason)) {
    case 'QuotaExceededError':
      return "the browser's storage is full";
    case 'VersionError':
      return 'a newer Firnward has used this device; reload the page';
    default:
      return `the browser gives no storage here (${reason instanceof Error ? reason.message : String(reason)})`;
  }
};
