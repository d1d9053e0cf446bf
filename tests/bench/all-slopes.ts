import { closeSync, openSync, readSync, writeSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { openFileSource } from '../../src/cli/file-source';
import { inflater } from '../../src/cli/inflate';
import { openRaster } from '../../src/core/files/raster/open';
import { groundScaleAt } from '../../src/core/ground/ground-scale';
import { hornSlopes, slopeMetric, type SlopeMetric } from '../../src/core/ground/slope-kernel';
import type { ByteSource, Raster } from '../../src/core/domain/raster';

/** What a thread is told once the main one knows how large the raster is. */
interface Share {
  readonly out: string;
  /** Around each seam between two bands: the last two rows of the upper, the first two of the lower. */
  readonly seams: SharedArrayBuffer;
  /** Bands taken, threads done. */
  readonly turns: SharedArrayBuffer;
}

const place = { band: 0, done: 1 } as const;

/**
 * A whole raster from file to slopes on all cores. Whichever thread is free takes the next band of blocks, reads, inflates,
 * computes and writes it: nobody waits, and a band stays in the processor's cache. Rows beside a seam need both bands and
 * come last.
 *
 * @param self the script to start threads from; it must call `slopesThread` when it is not the main one
 */
export async function allSlopes(path: string, out: string, self: string): Promise<void> {
  const others = Array.from(
    { length: availableParallelism() - 1 },
    () => new Worker(self, { workerData: { slopesOf: path } }),
  );
  const raster = await open(path);
  closeSync(openSync(out, 'w'));
  const share: Share = {
    out,
    seams: new SharedArrayBuffer(4 * 4 * raster.widthPx * (bandsOf(raster) + 1)),
    turns: new SharedArrayBuffer(8),
  };
  for (const other of others) other.postMessage(share);
  await takeBands(share, raster);
  const turns = new Int32Array(share.turns);
  const haveDone = () => Atomics.load(turns, place.done);
  for (let done = haveDone(); done <= others.length; done = haveDone()) {
    Atomics.wait(turns, place.done, done, 1000);
  }
  writeSeams(share, raster);
  await Promise.all(others.map((worker) => worker.terminate()));
}

export async function slopesThread(): Promise<void> {
  const told = new Promise<Share>((resolve) => parentPort!.once('message', resolve));
  const raster = await open((workerData as { slopesOf: string }).slopesOf);
  await takeBands(await told, raster);
}

export const isSlopesThread = (): boolean =>
  !isMainThread && (workerData as { slopesOf?: string } | null)?.slopesOf !== undefined;

async function open(path: string): Promise<Raster> {
  const opened = await openRaster(readInOnePlace(path), { inflater });
  if (!opened.ok) throw new Error(opened.problem.title);
  return opened.value;
}

/** Tiles are inflated one after the other here, each before the next is read: one place serves them all. The head is kept. */
function readInOnePlace(path: string): ByteSource {
  const source = openFileSource(path);
  const file = openSync(path, 'r');
  let bytes = new Uint8Array(0);
  return {
    ...source,
    read(offset, lengthBytes, cancel) {
      if (offset < headBytes) return source.read(offset, lengthBytes, cancel);
      if (bytes.length < lengthBytes) bytes = new Uint8Array(2 * lengthBytes);
      if (readSync(file, bytes, 0, lengthBytes, offset) < lengthBytes) throw new Error(`${path} ends early`);
      return Promise.resolve(bytes.subarray(0, lengthBytes));
    },
  };
}

const headBytes = 64 * 1024;

const bandsOf = ({ heightPx, blockPx }: Raster): number => Math.ceil(heightPx / blockPx);

const metricOf = (raster: Raster): SlopeMetric =>
  slopeMetric(groundScaleAt(raster, raster.widthPx / 2, raster.heightPx / 2));

async function takeBands({ out, seams, turns: shared }: Share, raster: Raster): Promise<void> {
  const { widthPx, heightPx, blockPx } = raster;
  const turns = new Int32Array(shared);
  const edges = new Float32Array(seams);
  const file = openSync(out, 'r+');
  const metric = metricOf(raster);
  const band = new Float32Array(widthPx * blockPx);
  const slopes = new Float32Array(band.length);
  const bands = bandsOf(raster);
  for (let k = Atomics.add(turns, place.band, 1); k < bands; k = Atomics.add(turns, place.band, 1)) {
    const rows = Math.min(blockPx, heightPx - k * blockPx);
    if (rows < 2) throw new Error('a band of one row has no seams');
    await readBand(raster, k, rows, band);
    const z = band.subarray(0, rows * widthPx);
    edges.set(z.subarray(0, 2 * widthPx), (4 * k + 2) * widthPx);
    edges.set(z.subarray(z.length - 2 * widthPx), 4 * (k + 1) * widthPx);
    hornSlopes(z, widthPx, { fromRow: 1, toRow: rows - 1 }, metric, slopes);
    writeRows(file, slopes.subarray(widthPx, (rows - 1) * widthPx), (k * blockPx + 1) * widthPx);
  }
  closeSync(file);
  Atomics.add(turns, place.done, 1);
  Atomics.notify(turns, place.done);
}

async function readBand(raster: Raster, k: number, rows: number, band: Float32Array): Promise<void> {
  const { widthPx, blockPx } = raster;
  for (let blockCol = 0; blockCol * blockPx < widthPx; blockCol++) {
    await raster.loadBlock(blockCol, k);
    const block = raster.blockInMemory(blockCol, k)!;
    const width = Math.min(blockPx, widthPx - blockCol * blockPx);
    for (let r = 0; r < rows; r++)
      band.set(block.subarray(r * blockPx, r * blockPx + width), r * widthPx + blockCol * blockPx);
  }
}

/** The rows on both sides of every seam; above the first and below the last there is nothing, and no slope. */
function writeSeams({ out, seams }: Share, raster: Raster): void {
  const { widthPx, heightPx, blockPx } = raster;
  const edges = new Float32Array(seams).fill(NaN, 0, 2 * widthPx).fill(NaN, -2 * widthPx);
  const metric = metricOf(raster);
  const slopes = new Float32Array(4 * widthPx);
  const file = openSync(out, 'r+');
  for (let k = 0; k <= bandsOf(raster); k++) {
    const z = edges.subarray(4 * k * widthPx, 4 * (k + 1) * widthPx);
    hornSlopes(z, widthPx, { fromRow: 1, toRow: 3 }, metric, slopes);
    const seamRow = Math.min(heightPx, k * blockPx);
    const from = Math.max(0, seamRow - 1);
    const rows = Math.min(heightPx, seamRow + 1) - from;
    writeRows(
      file,
      slopes.subarray((2 - seamRow + from) * widthPx).subarray(0, rows * widthPx),
      from * widthPx,
    );
  }
  closeSync(file);
}

function writeRows(file: number, slopes: Float32Array, fromCell: number): void {
  const bytes = new Uint8Array(slopes.buffer, slopes.byteOffset, slopes.byteLength);
  for (let at = 0; at < bytes.length;) at += writeSync(file, bytes, at, bytes.length - at, 4 * fromCell + at);
}
