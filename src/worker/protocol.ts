import type { Problem } from '../core/domain/problem';

/** What a worker can be asked: by name, one value in and one value out, both structured-clonable. */
export type Calls<C> = { readonly [K in keyof C]: { readonly ask: unknown; readonly answer: unknown } };

/** Page to worker. */
export type Request =
  | { readonly id: number; readonly call: string; readonly ask: unknown }
  | { readonly id: number; readonly cancel: true };

/** Worker to page. `progress` may come many times, one of the others once. */
export type Reply =
  | { readonly id: number; readonly progress: number }
  | { readonly id: number; readonly answer: unknown }
  | { readonly id: number; readonly problem: Problem }
  | { readonly id: number; readonly cancelled: true }
  | { readonly id: number; readonly defect: string };

/** Either end of a channel: a worker seen from the page, the page seen from a worker, a MessagePort in tests. */
export interface Port {
  postMessage(message: unknown, transfer?: Transferable[]): void;
  onmessage: ((event: MessageEvent) => void) | null;
}

/** An answer whose buffers go to the page instead of being copied. */
export class Moved<T> {
  constructor(
    readonly value: T,
    readonly transfer: Transferable[],
  ) {}
}

/** The question was withdrawn: by the user, or by a newer one. */
export class Cancelled extends Error {
  override readonly name = 'AbortError';
  constructor() {
    super('Cancelled');
  }
}

/** The worker ended while it had the question: killed, out of memory, or stuck and stopped by us. */
export class WorkerLost extends Error {
  override readonly name = 'WorkerLost';
  constructor() {
    super('The calculation was stopped');
  }
}

export const isCancelled = (reason: unknown): boolean =>
  reason instanceof Error && reason.name === 'AbortError';
