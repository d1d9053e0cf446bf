import { ProblemError } from '../core/domain/raster';
import { Moved, isCancelled, type Calls, type Port, type Reply, type Request } from './protocol';

/** What a handler is given beside the question. */
export interface Tools {
  readonly cancel: AbortSignal;
  /** @param done 0 to 1; told to the page at most every 50 ms. */
  readonly progress: (done: number) => void;
}

export type Handlers<C extends Calls<C>> = {
  readonly [K in keyof C]: (
    ask: C[K]['ask'],
    tools: Tools,
  ) => C[K]['answer'] | Moved<C[K]['answer']> | Promise<C[K]['answer'] | Moved<C[K]['answer']>>;
};

const progressEveryMs = 50;

/** Answers every question on the port. What the user can mend travels back as a problem, a defect as text. */
export function serve<C extends Calls<C>>(port: Port, handlers: Handlers<C>): void {
  const open = new Map<number, AbortController>();
  const reply = (message: Reply, transfer: Transferable[] = []) => port.postMessage(message, transfer);

  async function answer(id: number, call: string, ask: unknown): Promise<void> {
    const stop = new AbortController();
    open.set(id, stop);
    let toldAtMs = 0;
    try {
      const handler = (handlers as unknown as Record<string, Handlers<C>[keyof C] | undefined>)[call];
      if (handler === undefined) throw new Error(`No such call: ${call}`);
      const answered = await handler(ask, {
        cancel: stop.signal,
        progress(done) {
          const nowMs = performance.now();
          if (nowMs - toldAtMs < progressEveryMs) return;
          toldAtMs = nowMs;
          reply({ id, progress: done });
        },
      });
      if (stop.signal.aborted) reply({ id, cancelled: true });
      else if (answered instanceof Moved) reply({ id, answer: answered.value }, answered.transfer);
      else reply({ id, answer: answered });
    } catch (reason) {
      if (stop.signal.aborted || isCancelled(reason)) reply({ id, cancelled: true });
      else if (reason instanceof ProblemError) reply({ id, problem: reason.problem });
      else reply({ id, defect: reason instanceof Error ? (reason.stack ?? reason.message) : String(reason) });
    } finally {
      open.delete(id);
    }
  }

  port.onmessage = ({ data }: MessageEvent) => {
    const request = data as Request;
    if ('cancel' in request) open.get(request.id)?.abort();
    else void answer(request.id, request.call, request.ask);
  };
}

/** Lets waiting messages (cancel, tiles) be handled in the middle of long work. */
export function breathe(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(null);
  });
}

/** Holds a lock for the worker's whole life, so that the page hears of its end however it came. */
export function holdLife(name: string): void {
  void navigator.locks?.request(name, () => new Promise(() => {}));
}
