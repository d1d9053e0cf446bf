import { expect, test } from 'vitest';
import { BlockView } from '../../../src/core/ground/block-view';
import { makeRaster } from './made-raster';

/** Four million cells a block: of two blocks the view lets one go. The raster itself keeps none. */
test('what the last round did not touch is let go once much is held, and read again when it is wanted', async () => {
  const blockPx = 2048;
  const made = makeRaster(
    { widthPx: 2 * blockPx, heightPx: blockPx, cellM: 10, blockPx, isLazy: true },
    (_x, _y, col) => col,
  );
  let keeps = true;
  const raster = {
    ...made,
    blockInMemory: (col: number, row: number) => (keeps ? made.blockInMemory(col, row) : null),
  };
  const view = new BlockView(raster);
  const read = async (col: number) => {
    const atOnce = view.elevationM(col, 0);
    if (!Number.isNaN(atOnce)) return atOnce;
    keeps = true;
    await view.loadWanted();
    keeps = false;
    return view.elevationM(col, 0);
  };
  expect(await read(5)).toBe(5);
  view.letGo();
  expect(await read(6)).toBe(6);
  expect(made.loads).toEqual(['0,0']);
  view.letGo();
  expect(await read(blockPx + 7)).toBe(blockPx + 7);
  view.letGo(); // only the second was touched since
  expect(await read(blockPx + 8)).toBe(blockPx + 8);
  expect(made.loads).toEqual(['0,0', '1,0']);
  expect(await read(5)).toBe(5);
  expect(made.loads).toEqual(['0,0', '1,0', '0,0']);
});
