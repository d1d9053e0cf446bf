import { fileURLToPath } from 'node:url';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import type { Figure, Figures } from '../bench/figure';
import { Dice } from './mutate';
import { judgeRaster } from './raster-case';
import { mutatedAsc, mutatedHgt, type RasterFile } from './grid-mutate';
import { mutatedRaster } from './raster-mutate';
import { rasterSeeds } from './raster-seeds';

/** Changed files of each kind; more by FUZZ_FILES. */
const files = Number(process.env['FUZZ_FILES'] ?? 20_000);
const hangMs = 1000;
const memoryMb = 256;

const kinds = ['tif', 'hgt', 'asc'] as const;
type Kind = (typeof kinds)[number];

interface Task {
  readonly kind: Kind;
  readonly from: number;
  readonly to: number;
  /** The file being read. */
  readonly clock: SharedArrayBuffer;
}

interface Tally {
  readonly refused: number;
  readonly accepted: number;
  readonly compared: number;
  readonly bad: readonly string[];
  /** Most memory outside the heap that one file took, MB. */
  readonly mostMb: number;
}

/** Every file has its own seed, so that one can be read again alone. */
function file(kind: Kind, i: number): RasterFile {
  const dice = new Dice(i * 7919 + 5);
  if (kind === 'tif') return { name: 'changed.tif', bytes: mutatedRaster(rasterSeeds, dice) };
  return kind === 'hgt' ? mutatedHgt(dice) : mutatedAsc(dice);
}

async function work({ kind, from, to, clock }: Task): Promise<void> {
  const view = new Int32Array(clock);
  const tally = { refused: 0, accepted: 0, compared: 0, bad: [] as string[], mostMb: 0 };
  for (let i = from; i < to; i++) {
    Atomics.store(view, 0, i);
    const before = process.memoryUsage().arrayBuffers;
    const verdict = await judgeRaster(file(kind, i));
    tally.mostMb = Math.max(tally.mostMb, (process.memoryUsage().arrayBuffers - before) / 2 ** 20);
    if (verdict.kind === 'refused') tally.refused += 1;
    else if (verdict.kind === 'accepted') {
      tally.accepted += 1;
      if (verdict.isCompared) tally.compared += 1;
    } else tally.bad.push(`${kind} ${i} ${verdict.kind}: ${verdict.why}`);
  }
  parentPort?.postMessage(tally satisfies Tally);
}

/** Runs a stretch of files under watch: one that takes over a second, or the memory, ends the worker. */
function watched(kind: Kind, from: number): Promise<{ tally: Tally | null; stoppedAt: number; why: string }> {
  const clock = new SharedArrayBuffer(4);
  const view = new Int32Array(clock);
  view[0] = from;
  const task: Task = { kind, from, to: files, clock };
  const worker = new Worker(fileURLToPath(import.meta.url), {
    workerData: task,
    resourceLimits: { maxOldGenerationSizeMb: memoryMb },
  });
  return new Promise((done) => {
    let last = -1;
    let sinceMs = performance.now();
    const watch = setInterval(() => {
      const at = Atomics.load(view, 0);
      if (at !== last) [last, sinceMs] = [at, performance.now()];
      else if (performance.now() - sinceMs > hangMs && at > from) finish(null, `hung at ${kind} ${at}`);
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

const figures: Figures = async () => {
  const all: Figure[] = [];
  for (const kind of kinds) all.push(...(await figuresOf(kind)));
  return all;
};

async function figuresOf(kind: Kind): Promise<readonly Figure[]> {
  const stops: string[] = [];
  const sum = { read: 0, compared: 0, mostMb: 0 };
  const bad: string[] = [];
  for (let from = 0; from < files;) {
    const { tally, stoppedAt, why } = await watched(kind, from);
    if (tally === null) stops.push(why);
    else {
      bad.push(...tally.bad);
      sum.compared += tally.compared;
      sum.read += tally.accepted + tally.refused + tally.bad.length;
      sum.mostMb = Math.max(sum.mostMb, tally.mostMb);
    }
    from = tally === null ? stoppedAt + 1 : files;
  }
  for (const line of [...stops, ...bad].slice(0, 20)) console.error(line.slice(0, 2000));
  const none = { atMost: 0 };
  return [
    { name: `${kind}: changed files read`, value: sum.read, unit: 'files', limit: { atLeast: files } },
    {
      name: `${kind}: accepted and compared`,
      value: sum.compared,
      unit: 'files',
      limit: { atLeast: files / 20 },
    },
    { name: `${kind}: hangs, crashes, out of memory`, value: stops.length, unit: 'files', limit: none },
    { name: `${kind}: untyped errors or differences`, value: bad.length, unit: 'files', limit: none },
    { name: `${kind}: most memory for one file`, value: sum.mostMb, unit: 'MB', limit: { atMost: memoryMb } },
  ];
}

if (!isMainThread) await work(workerData as Task);

export default figures;
