import { ProblemError } from '../core/domain/raster';
import { Cancelled, WorkerLost, type Calls, type Port, type Reply } from './protocol';

export interface AskOptions {
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((done: number) => void) | undefined;
  readonly transfer?: Transferable[];
  /** A strange file may put the worker into a loop: stop it where it does not answer a cancel for this long. */
  readonly stuckAfterMs?: number;
}

/** A started worker: its port, its end, and the way to stop it. */
export interface Running {
  readonly port: Port;
  stop(): void;
}

/** Starts a worker; `onLost` is called once if it ends by itself. */
export type Start = (onLost: () => void) => Running;

interface Waiting {
  readonly resolve: (answer: unknown) => void;
  readonly reject: (reason: Error) => void;
  readonly onProgress: ((done: number) => void) | undefined;
}

/** A worker seen as asynchronous functions. Starts when first asked; starts anew after it was lost or stopped. */
export class Client<C extends Calls<C>> {
  /** Called after a new start that replaces a lost worker, before anything else is asked: give it back what it held. */
  onRestart: (() => void) | null = null;

  #running: Running | null = null;
  #starts = 0;
  #nextId = 1;
  readonly #waiting = new Map<number, Waiting>();

  constructor(readonly start: Start) {}

  /**
   * @throws ProblemError for what the user can mend, Cancelled after `signal`, WorkerLost if the worker ended, Error for
   * a defect of ours.
   */
  ask<K extends keyof C & string>(
    call: K,
    ask: C[K]['ask'],
    { signal, onProgress, transfer = [], stuckAfterMs }: AskOptions = {},
  ): Promise<C[K]['answer']> {
    if (signal?.aborted) return Promise.reject(new Cancelled());
    const running = this.#run();
    const id = this.#nextId++;
    return new Promise((resolve, reject) => {
      const cancel = () => {
        running.port.postMessage({ id, cancel: true });
        reject(new Cancelled());
        if (stuckAfterMs === undefined) return;
        setTimeout(() => {
          if (this.#waiting.has(id) && this.#running === running) this.stop();
        }, stuckAfterMs);
      };
      signal?.addEventListener('abort', cancel, { once: true });
      const settle = () => signal?.removeEventListener('abort', cancel);
      this.#waiting.set(id, {
        resolve: (answer) => (settle(), resolve(answer)),
        reject: (reason) => (settle(), reject(reason)),
        onProgress,
      });
      running.port.postMessage({ id, call, ask }, transfer);
    });
  }

  /** Starts the worker before it is needed: its program is loaded while other things happen. */
  wake(): void {
    this.#run();
  }

  /** Ends the worker at once, whatever it is doing. Everything asked and not answered is lost. */
  stop(): void {
    this.#running?.stop();
    this.#lose();
  }

  #run(): Running {
    if (this.#running) return this.#running;
    const running = this.start(() => {
      if (this.#running === running) this.#lose();
    });
    running.port.onmessage = ({ data }: MessageEvent) => this.#hear(data as Reply);
    this.#running = running;
    if (this.#starts++ > 0) this.onRestart?.();
    return running;
  }

  #hear(reply: Reply): void {
    const waiting = this.#waiting.get(reply.id);
    if (!waiting) return;
    if ('progress' in reply) return waiting.onProgress?.(reply.progress);
    this.#waiting.delete(reply.id);
    if ('answer' in reply) waiting.resolve(reply.answer);
    else if ('problem' in reply) waiting.reject(new ProblemError(reply.problem));
    else if ('cancelled' in reply) waiting.reject(new Cancelled());
    else waiting.reject(new Error(reply.defect));
  }

  #lose(): void {
    this.#running = null;
    const lost = [...this.#waiting.values()];
    this.#waiting.clear();
    for (const { reject } of lost) reject(new WorkerLost());
  }
}

let lives = 0;

/**
 * A browser's worker as a Running. Its end is noticed through a lock that it holds while it lives: a worker that is
 * killed sends no event.
 */
export function startWorker(create: (name: string) => Worker): Start {
  return (onLost) => {
    const name = `firnward-worker-${crypto.randomUUID()}-${lives++}`;
    const worker = create(name);
    let over = false;
    const end = () => {
      if (over) return;
      over = true;
      worker.terminate();
      onLost();
    };
    worker.addEventListener('error', end);
    worker.addEventListener('messageerror', end);
    void navigator.locks?.query().then(() => watch(name, end, () => over));
    return {
      port: worker,
      stop() {
        over = true;
        worker.terminate();
      },
    };
  };
}

const startsWithinMs = 60_000;

/** Waits for the worker to hold its lock, then for the lock to come free. One that never starts is lost, too. */
async function watch(name: string, end: () => void, isOver: () => boolean): Promise<void> {
  const sinceMs = performance.now();
  for (;;) {
    if (isOver()) return;
    if (performance.now() - sinceMs > startsWithinMs) return end();
    const { held } = await navigator.locks.query();
    if (held?.some((lock) => lock.name === name)) break;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  await navigator.locks.request(name, end);
}
