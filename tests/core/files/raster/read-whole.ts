import type { Problem } from '../../../../src/core/domain/problem';
import type { Raster } from '../../../../src/core/domain/raster';
import { bufferSource } from '../../../../src/core/files/raster/byte-source';
import { openRaster, type RasterOptions } from '../../../../src/core/files/raster/open';

export async function opened(
  bytes: Uint8Array,
  options: RasterOptions = {},
  name = 'grid.tif',
): Promise<Raster> {
  const result = await openRaster(bufferSource(name, bytes), options);
  if (!result.ok) throw new Error(`${result.problem.code}: ${result.problem.title}`);
  return result.value;
}

export async function refused(
  bytes: Uint8Array,
  options: RasterOptions = {},
  name = 'grid.tif',
): Promise<Problem> {
  const result = await openRaster(bufferSource(name, bytes), options);
  if (result.ok) throw new Error(`${name} was opened`);
  return result.problem;
}

/** Every cell, row by row from the north-west. */
export async function readWhole(raster: Raster): Promise<Float64Array> {
  const { widthPx, heightPx, blockPx } = raster;
  const cells = new Float64Array(widthPx * heightPx);
  for (let blockRow = 0; blockRow * blockPx < heightPx; blockRow++)
    for (let blockCol = 0; blockCol * blockPx < widthPx; blockCol++) {
      await raster.loadBlock(blockCol, blockRow);
      const block = raster.blockInMemory(blockCol, blockRow);
      if (block === null) throw new Error(`block ${blockCol}, ${blockRow} is not in memory`);
      const toCol = Math.min(blockPx, widthPx - blockCol * blockPx);
      for (let row = 0; row < Math.min(blockPx, heightPx - blockRow * blockPx); row++)
        cells.set(
          block.subarray(row * blockPx, row * blockPx + toCol),
          (blockRow * blockPx + row) * widthPx + blockCol * blockPx,
        );
    }
  return cells;
}
