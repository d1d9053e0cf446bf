import type { Cancel } from '../domain/cancel';
import type { Raster } from '../domain/raster';

/**
 * A coarser level of a raster that brings none of its own, for showing the whole of it: means over factor x factor cells,
 * missing where half of them are. Reads every block once, so it is for local files, and for the eye only.
 *
 * @param onProgress share of the blocks read, 0 to 1
 * @param breathe awaited between rows of blocks, so that whoever runs this can do other work
 */
export async function coarsen(
  raster: Raster,
  options: {
    readonly factor: number;
    readonly cancel?: Cancel;
    readonly onProgress?: (share: number) => void;
    readonly breathe?: () => Promise<void>;
  },
): Promise<Raster> {
  const { factor, cancel } = options;
  const { affine, blockPx } = raster;
  const widthPx = Math.ceil(raster.widthPx / factor);
  const heightPx = Math.ceil(raster.heightPx / factor);
  const sums = new Float64Array(widthPx * heightPx);
  const counts = new Uint16Array(widthPx * heightPx);
  const across = Math.ceil(raster.widthPx / blockPx);
  const down = Math.ceil(raster.heightPx / blockPx);
  for (let blockRow = 0; blockRow < down; blockRow++) {
    for (let blockCol = 0; blockCol < across; blockCol++) {
      cancel?.throwIfAborted();
      await raster.loadBlock(blockCol, blockRow, cancel);
      const block = raster.blockInMemory(blockCol, blockRow);
      if (block === null) continue; // let go at once by a full cache: these cells stay missing
      for (let r = 0; r < blockPx; r++) {
        const row = Math.floor((blockRow * blockPx + r) / factor);
        if (row >= heightPx) break;
        for (let c = 0; c < blockPx; c++) {
          const z = block[r * blockPx + c]!;
          if (Number.isNaN(z)) continue; // also what pads the last blocks
          const at = row * widthPx + Math.floor((blockCol * blockPx + c) / factor);
          sums[at]! += z;
          counts[at]! += 1;
        }
      }
    }
    options.onProgress?.((blockRow + 1) / down);
    await options.breathe?.();
  }
  const half = (factor * factor) / 2;
  const means = Float32Array.from(sums, (sum, i) => (counts[i]! >= half ? sum / counts[i]! : NaN));
  return inMemory(
    {
      ...raster,
      widthPx,
      heightPx,
      affine: {
        ...affine,
        colX: affine.colX * factor,
        colY: affine.colY * factor,
        rowX: affine.rowX * factor,
        rowY: affine.rowY * factor,
      },
      cellM: raster.cellM * factor,
      overviews: [],
    },
    means,
  );
}

const sidePx = 256;

function inMemory(facts: Raster, cells: Float32Array): Raster {
  const across = Math.ceil(facts.widthPx / sidePx);
  const blocks = new Map<number, Float32Array>();
  const cut = (blockCol: number, blockRow: number): Float32Array => {
    const block = new Float32Array(sidePx * sidePx).fill(NaN);
    const col0 = blockCol * sidePx;
    const width = Math.min(sidePx, facts.widthPx - col0);
    for (let r = 0; r < sidePx && blockRow * sidePx + r < facts.heightPx; r++) {
      const from = (blockRow * sidePx + r) * facts.widthPx + col0;
      block.set(cells.subarray(from, from + width), r * sidePx);
    }
    return block;
  };
  for (let k = 0; k < across * Math.ceil(facts.heightPx / sidePx); k++) {
    blocks.set(k, cut(k % across, Math.floor(k / across)));
  }
  return {
    ...facts,
    blockPx: sidePx,
    blockInMemory: (blockCol, blockRow) => blocks.get(blockRow * across + blockCol) ?? null,
    loadBlock: () => Promise.resolve(),
  };
}
