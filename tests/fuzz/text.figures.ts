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
  /** [0]: the file being read, [1]: 1 once the worker has begun. */
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

async function work({ kind, from, to, clock }: Task): Promise<void> {
  const view = new Int32Array(clock);
  Atomics.store(view, 1, 1);
  let refused = 0;
  let accepted = 0;
  const bad: string[] = [];
  for (let i = from; i < to; i++) {
    Atomics.store(view, 0, i);
    const verdict = await judge(kind, file(kind, i));
    if (verdict.kind === 'refused') refused += 1;
    else if (verdict.kind === 'accepted') accepted += 1;
    else bad.push(`${kind} ${i} ${verdict.kind}: ${verdict.why}`);
  }
  parentPort?.postMessage({ refused, accepted, bad } satisfies Tally);
}

interface Watched {
  /** null: the worker was stopped, or stopped itself, at the file named. */
  readonly tally: Tally | null;
  readonly stoppedAt: number;
  readonly why: string;
}

/** Runs a task under watch: a file that takes over a second, or too much memory, ends the worker. */
function watched(kind: TextKind, from: number, to: number): Promise<Watched> {
  const clock = new SharedArrayBuffer(8);
  const view = new Int32Array(clock);
  view[0] = from;
  const task: Task = { kind, from, to, clock };
  const worker = new Worker(fileURLToPath(import.meta.url), {
    workerData: task,
    resourceLimits: { maxOldGenerationSizeMb: heapMb },
  });
  return new Promise((done) => {
    let last = -1;
    let sinceMs = performance.now();
    const watch = setInterval(() => {
      const at = Atomics.load(view, 0);
      if (at !== last || Atomics.load(view, 1) === 0) [last, sinceMs] = [at, performance.now()];
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

/** Reads a range, around the files that stop a worker: on a busy machine only what stops it twice counts. */
async function readRange(
  kind: TextKind,
  from: number,
  to: number,
): Promise<{ tallies: Tally[]; stops: string[] }> {
  if (from >= to) return { tallies: [], stops: [] };
  const all = await watched(kind, from, to);
  if (all.tally !== null) return { tallies: [all.tally], stops: [] };
  const alone = await watched(kind, all.stoppedAt, all.stoppedAt + 1);
  const before = await readRange(kind, from, all.stoppedAt);
  const behind = await readRange(kind, all.stoppedAt + 1, to);
  return {
    tallies: [...before.tallies, ...(alone.tally === null ? [] : [alone.tally]), ...behind.tallies],
    stops: [...before.stops, ...(alone.tally === null ? [alone.why] : []), ...behind.stops],
  };
}

async function fuzz(kind: TextKind): Promise<Figure[]> {
  const { tallies, stops } = await readRange(kind, 0, files);
  const bad = tallies.flatMap((tally) => tally.bad);
  const accepted = tallies.reduce((sum, tally) => sum + tally.accepted, 0);
  const read = tallies.reduce((sum, tally) => sum + tally.refused, accepted + bad.length);
  for (const line of [...stops, ...bad].slice(0, 20)) console.error(line.slice(0, 2000));
  return [
    {
      name: `${kind}: changed files read`,
      value: read,
      unit: 'files',
      limit: { atLeast: files },
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

if (!isMainThread) await work(workerData as Task);

export default figures;
