import { fileURLToPath } from 'node:url';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import type { Figure, Figures } from '../bench/figure';
import { Dice, mutated } from './mutate';
import { judge } from './text-case';
import { seeds, textKinds, type TextKind } from './text-seeds';

/** Changed files of each kind; more by FUZZ_FILES. */
const files = Number(process.env['FUZZ_FILES'] ?? 20_000);
const hangMs = 1000;
const heapMb = 256;

interface Task {
  readonly kind: TextKind;
  readonly from: number;
  readonly to: number;
  /** [0]: the file being read, [1]: when it was begun, milliseconds since the task's start. */
  readonly clock: SharedArrayBuffer;
}

interface Tally {
  readonly refused: number;
  readonly accepted: number;
  readonly bad: readonly string[];
}

/** Every file has its own seed, so that one can be read again alone. */
const file = (kind: TextKind, i: number): Uint8Array =>
  mutated(seeds[kind], new Dice(i * 7919 + kind.length));

function work({ kind, from, to, clock }: Task): void {
  const view = new Int32Array(clock);
  const startMs = performance.now();
  let refused = 0;
  let accepted = 0;
  const bad: string[] = [];
  for (let i = from; i < to; i++) {
    Atomics.store(view, 1, Math.round(performance.now() - startMs));
    Atomics.store(view, 0, i);
    const verdict = judge(kind, file(kind, i));
    if (verdict.kind === 'refused') refused += 1;
    else if (verdict.kind === 'accepted') accepted += 1;
    else bad.push(`${kind} ${i} ${verdict.kind}: ${verdict.why}`);
  }
  parentPort?.postMessage({ refused, accepted, bad } satisfies Tally);
}

/** Runs a task under watch: a file that takes over a second, or the memory, ends the worker; the next goes on behind it. */
function watched(
  kind: TextKind,
  from: number,
): Promise<{ tally: Tally | null; stoppedAt: number; why: string }> {
  const clock = new SharedArrayBuffer(8);
  const view = new Int32Array(clock);
  view[0] = from;
  const task: Task = { kind, from, to: files, clock };
  const worker = new Worker(fileURLToPath(import.meta.url), {
    workerData: task,
    resourceLimits: { maxOldGenerationSizeMb: heapMb },
  });
  return new Promise((done) => {
    let last = -1;
    let sinceMs = performance.now();
    const watch = setInterval(() => {
      const at = Atomics.load(view, 0);
      if (at !== last) [last, sinceMs] = [at, performance.now()];
      else if (performance.now() - sinceMs > hangMs) finish(null, `hung at ${kind} ${at}`);
    }, 50);
    const finish = (tally: Tally | null, why: string) => {
      clearInterval(watch);
      void worker.terminate();
      done({ tally, stoppedAt: Atomics.load(view, 0), why });
    };
    worker.on('message', (tally: Tally) => finish(tally, ''));
    worker.on('error', (error) => finish(null, `ended at ${kind} ${view[0]}: ${String(error)}`));
  });
}

async function fuzz(kind: TextKind): Promise<Figure[]> {
  const stops: string[] = [];
  let read = 0;
  const bad: string[] = [];
  let accepted = 0;
  for (let from = 0; from < files;) {
    const { tally, stoppedAt, why } = await watched(kind, from);
    if (tally === null) stops.push(why);
    else {
      bad.push(...tally.bad);
      accepted += tally.accepted;
      read += tally.accepted + tally.refused + tally.bad.length;
    }
    from = tally === null ? stoppedAt + 1 : files;
  }
  for (const line of [...stops, ...bad].slice(0, 20)) console.error(line.slice(0, 2000));
  return [
    {
      name: `${kind}: changed files read`,
      value: read,
      unit: 'files',
      limit: { atLeast: files - stops.length * files },
    },
    {
      name: `${kind}: accepted and compared with a second reader`,
      value: accepted,
      unit: 'files',
      limit: { atLeast: files / 100 },
    },
    {
      name: `${kind}: hangs, crashes, out of memory`,
      value: stops.length,
      unit: 'files',
      limit: { atMost: 0 },
    },
    {
      name: `${kind}: untyped errors or differences`,
      value: bad.length,
      unit: 'files',
      limit: { atMost: 0 },
    },
  ];
}

const figures: Figures = async () => {
  const all: Figure[] = [];
  for (const kind of textKinds) all.push(...(await fuzz(kind)));
  return all;
};

if (!isMainThread) work(workerData as Task);

export default figures;
