import type { Note, Problem } from '../core/domain/problem';
import { ProblemError } from '../core/domain/raster';
import { isCancelled } from '../worker/protocol';
import type { OfferedFile } from './save-file';

/** Something said beside the page: a problem with its remedy, or a note. Stays until it is put away. */
export interface Message {
  readonly id: number;
  readonly problem: Problem | null;
  readonly note: Note | null;
  readonly action: { readonly label: string; readonly run: () => void } | null;
  /** The file that was saved last, should the browser have held it back. */
  readonly file: OfferedFile | null;
}

/** What the page says: messages that stay until they are put away, and words for screen readers. */
export class Voice {
  messages = $state.raw<readonly Message[]>([]);
  /** Said to screen readers. */
  announcement = $state('');
  #nextId = 1;

  constructor(
    readonly tryAgain: () => void,
    /** Told before a trouble is said. */
    readonly onTrouble: () => void,
  ) {}

  say(message: Partial<Omit<Message, 'id'>>): void {
    const id = this.#nextId++;
    const { note } = message;
    const isSaidAgain = (one: Message) =>
      note &&
      one.note?.subject === note.subject &&
      one.note.code === note.code &&
      one.note.text === note.text;
    this.messages = [
      ...this.messages.filter((one) => !isSaidAgain(one)),
      { problem: null, note: null, action: null, file: null, ...message, id },
    ];
    this.announcement = message.problem?.title ?? message.note?.text ?? '';
  }

  /** Said until the next file is saved. */
  saidFile(file: OfferedFile): void {
    this.messages = this.messages.filter((message) => message.file === null);
    this.say({ file });
    this.announcement = `Saved ${file.name}`;
  }

  /** What was noted of something, or one kind of note, is settled. */
  unsay(subject: string, code?: string): void {
    this.messages = this.messages.filter(
      ({ note }) => note?.subject !== subject || (code !== undefined && note.code !== code),
    );
  }

  putAway(messageId: number): void {
    this.messages = this.messages.filter(({ id }) => id !== messageId);
  }

  /** Whatever went wrong, in words: the user's problem as it is, a defect of ours as one. */
  trouble(reason: unknown, subject: string, kept?: string): void {
    if (isCancelled(reason)) return;
    this.onTrouble();
    if (reason instanceof ProblemError)
      return this.say({ problem: { ...(kept && { kept }), ...reason.problem } });
    console.error(reason);
    const lost = reason instanceof Error && reason.name === 'WorkerLost';
    this.say({
      problem: {
        code: lost ? 'APP-001' : 'APP-002',
        subject,
        place: null,
        title: lost ? 'The calculation was stopped, perhaps for want of memory' : 'A fault of this program',
        remedy: lost
          ? 'Nothing is lost. Try again; if it happens again, try a shorter line or a smaller raster.'
          : 'Nothing is lost. Save the project to a file and reload the page.',
      },
      action: { label: 'Try again', run: this.tryAgain },
    });
  }
}
