import { writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { isMainThread, Worker, workerData } from 'node:worker_threads';
import { inflateSync } from 'node:zlib';
import { openFileSource } from '../../src/cli/file-source';
import { openRaster } from '../../src/core/files/raster/open';
import { groundScaleAt } from '../../src/core/ground/ground-scale';
import { hornSlopes, slopeMetric } from '../../src/core/ground/slope-kernel';
import type { Raster } from '../../src/core/domain/raster';

interface Share {
  readonly path: string;
  readonly cells: SharedArrayBuffer;
  readonly slopes: SharedArrayBuffer;
  readonly turns: SharedArrayBuffer;
  readonly threads: number;
}

/**
 * A whole raster from file to slopes on all cores: blocks are read and inflated by whichever thread is free, then each
 * thread computes its share of the rows.
 *
 * @param self the script to start threads from; it must call `slopesThread` when it is not the main one
 */
export async function allSlopes(path: string, out: string, self: string): Promise<void> {
  const raster = await open(path);
  const count = raster.widthPx * raster.heightPx;
  const threads = availableParallelism();
  const share: Share = {
    path,
    cells: new SharedArrayBuffer(4 * count),
    slopes: new SharedArrayBuffer(4 * count),
    turns: new SharedArrayBuffer(16),
    threads,
  };
  const others = Array.from(
    { length: threads - 1 },
    () => new Worker(self, { workerData: { slopes: share } }),
  );
  await work(share, raster);
  meet(share, 'end');
  writeFileSync(out, new Uint8Array(share.slopes));
  await Promise.all(others.map((worker) => worker.terminate()));
}

export async function slopesThread(): Promise<void> {
  const { slopes: share } = workerData as { slopes: Share };
  await work(share, await open(share.path));
  meet(share, 'end');
}

export const isSlopesThread = (): boolean =>
  !isMainThread && (workerData as { slopes?: Share } | null)?.slopes !== undefined;

async function open(path: string): Promise<Raster> {
  const opened = await openRaster(await openFileSource(path), {
    // Threads of our own do the inflating here, each into one buffer of the size it will need.
    inflate: (deflated, maxBytes) =>
      Promise.resolve(
        inflateSync(deflated, { maxOutputLength: maxBytes, chunkSize: Math.max(64, maxBytes) }),
      ),
  });
  if (!opened.ok) throw new Error(opened.problem.title);
  return opened.value;
}

/** Rows of one turn at the slopes. */
const turnRows = 64;
const place = { block: 0, rows: 1, read: 2, end: 3 } as const;

/** Waits until every thread has come here. */
function meet({ turns, threads }: Share, where: 'read' | 'end'): void {
  const counts = new Int32Array(turns);
  const at = place[where];
  if (Atomics.add(counts, at, 1) + 1 === threads) Atomics.notify(counts, at);
  for (let here = Atomics.load(counts, at); here < threads; here = Atomics.load(counts, at)) {
    Atomics.wait(counts, at, here, 1000);
  }
}

async function work(share: Share, raster: Raster): Promise<void> {
  const { widthPx, heightPx, blockPx } = raster;
  const cells = new Float32Array(share.cells);
  const turns = new Int32Array(share.turns);
  const across = Math.ceil(widthPx / blockPx);
  const blocks = across * Math.ceil(heightPx / blockPx);
  const readSome = async (): Promise<void> => {
    for (let k = Atomics.add(turns, place.block, 1); k < blocks; k = Atomics.add(turns, place.block, 1)) {
      const [blockCol, blockRow] = [k % across, Math.floor(k / across)];
      await raster.loadBlock(blockCol, blockRow);
      const block = raster.blockInMemory(blockCol, blockRow)!;
      const width = Math.min(blockPx, widthPx - blockCol * blockPx);
      for (let r = 0; r < blockPx && blockRow * blockPx + r < heightPx; r++) {
        cells.set(
          block.subarray(r * blockPx, r * blockPx + width),
          (blockRow * blockPx + r) * widthPx + blockCol * blockPx,
        );
      }
    }
  };
  await readSome();
  meet(share, 'read');
  const metric = slopeMetric(groundScaleAt(raster, widthPx / 2, heightPx / 2));
  const slopes = new Float32Array(share.slopes);
  for (
    let k = Atomics.add(turns, place.rows, 1);
    k * turnRows < heightPx;
    k = Atomics.add(turns, place.rows, 1)
  ) {
    const rows = { fromRow: k * turnRows, toRow: Math.min(heightPx, (k + 1) * turnRows) };
    hornSlopes(cells, widthPx, rows, metric, slopes);
  }
}
