import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parentPort, Worker, workerData } from 'node:worker_threads';
import type { Figures } from '../core/assumptions/figures';
import type { Party } from '../core/domain/rope-team';
import type { Snow } from '../core/domain/snow';
import { buildTables, mergeTables, type SlipTables, type TableOptions } from '../core/slip/tables';
import { slipThreadWord } from './slip-thread-word';

/** Tables to be built: what `buildTables` is asked. */
export interface TablesAsked {
  readonly party: Party;
  readonly figures: Figures;
  readonly snows: readonly Snow[];
  readonly options: Omit<TableOptions, 'part'>;
}

interface Shared {
  readonly asked: readonly TablesAsked[];
  /** The next part that nobody has taken. */
  readonly turn: Int32Array;
}

interface Part {
  /** Index into what was asked. */
  readonly of: number;
  readonly tables: SlipTables;
}

export interface TablesBeingBuilt {
  /** Takes part, and gives all of them in the order asked. */
  readonly finish: (onProgress?: (done: number) => void) => Promise<SlipTables[]>;
}

/** Parts of each table: so many that a part is one sheet. */
const partsEach = 64;

/** Threads use memory; more than this many would wait for the last sheet anyway. Run from its sources, there is no file to start them from. */
const mostThreads = import.meta.env.MODE === 'cli' ? 8 : 1;

/**
 * Begins to build tables on the other cores. `finish` takes part and gives all of them, in the order asked; who never calls it
 * is not kept waiting by the threads. What comes out does not depend on who built which part.
 */
export function startTables(asked: readonly TablesAsked[]): TablesBeingBuilt {
  const shared: Shared = { asked, turn: new Int32Array(new SharedArrayBuffer(4)) };
  const others = Array.from({ length: Math.min(mostThreads, availableParallelism()) - 1 }, () =>
    partsOf(new Worker(fileURLToPath(import.meta.url), { argv: [slipThreadWord], workerData: shared })),
  );
  return {
    async finish(onProgress) {
      const own: Part[] = [];
      for (const part of takeParts(shared)) {
        own.push(part);
        onProgress?.(Math.min(1, Atomics.load(shared.turn, 0) / (asked.length * partsEach)));
      }
      const parts = [...own, ...(await Promise.all(others.map((other) => other()))).flat()];
      return asked.map((_, of) => {
        const [first, ...rest] = parts.filter((part) => part.of === of).map(({ tables }) => tables);
        if (first === undefined) throw new Error('slip tables without a part');
        return mergeTables([first, ...rest]);
      });
    },
  };
}

/** All parts that a thread builds, once it has ended. */
function partsOf(thread: Worker): () => Promise<readonly Part[]> {
  const done = new Promise<readonly Part[]>((resolve, reject) => {
    thread.once('message', resolve);
    thread.once('error', reject);
  });
  done.catch(() => undefined); // told to who waits for it
  thread.unref();
  return () => {
    thread.ref();
    return done;
  };
}

/** What a thread of `startTables` does. */
export function slipThread(): void {
  parentPort?.postMessage([...takeParts(workerData as Shared)]);
}

function* takeParts({ asked, turn }: Shared): Generator<Part> {
  const count = asked.length * partsEach;
  for (let k = Atomics.add(turn, 0, 1); k < count; k = Atomics.add(turn, 0, 1)) {
    const of = Math.floor(k / partsEach);
    const { party, figures, snows, options } = asked[of]!;
    const part = { index: k % partsEach, of: partsEach };
    yield { of, tables: buildTables(party, figures, snows, { ...options, part }) };
  }
}
