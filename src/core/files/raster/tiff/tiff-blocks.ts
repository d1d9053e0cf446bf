import type { Cancel } from '../../../domain/cancel';
import { isPlain, toMetres, type CellMeaning, type Unsaid } from '../cell-meaning';
import type { StoredCells } from './decode-chunk';
import type { Placement } from './georeference';
import type { Picture } from './picture';
import type { PictureCells } from './picture-cells';

/** Blocks of a picture, north up, in metres. */
export interface TiffBlocks {
  readonly cells: PictureCells;
  /** Each is 0 where a cell is masked out. */
  readonly masks: readonly PictureCells[];
  readonly placement: Pick<Placement, 'rowsRunNorth' | 'columnsRunWest'>;
  readonly meaning: CellMeaning;
  readonly blockPx: number;
  /** Told what was taken as missing without the file saying so. */
  readonly onUnsaid: (unsaid: Unsaid) => void;
}

/** The tile's own side where tiles are square and of a handy size, else 256. */
export function blockSidePx({ isTiled, chunkWidthPx, chunkHeightPx }: Picture): number {
  const isHandy = isTiled && chunkWidthPx === chunkHeightPx && chunkWidthPx >= 64 && chunkWidthPx <= 512;
  return isHandy ? chunkWidthPx : 256;
}

export async function readTiffBlock(
  blocks: TiffBlocks,
  blockCol: number,
  blockRow: number,
  cancel?: Cancel,
): Promise<StoredCells> {
  const { blockPx, cells, masks, meaning } = blocks;
  const { widthPx, heightPx, sample } = cells.index.picture;
  const { rowsRunNorth, columnsRunWest } = blocks.placement;
  const window = {
    col: columnsRunWest ? widthPx - (blockCol + 1) * blockPx : blockCol * blockPx,
    row: rowsRunNorth ? heightPx - (blockRow + 1) * blockPx : blockRow * blockPx,
    widthPx: blockPx,
    heightPx: blockPx,
  };
  const fits32 = isPlain(meaning) && (sample.bits <= 16 || (sample.kind === 'float' && sample.bits === 32));
  const tile = await cells.tile(window, cancel);
  const block = tile === null ? await copied() : fits32 ? tile : Float64Array.from(tile);
  for (const mask of masks) {
    const isStored = new Float32Array(block.length);
    await mask.copy(window, isStored, blockPx, cancel);
    for (let i = 0; i < block.length; i++) if (isStored[i] === 0) block[i] = NaN;
  }
  blocks.onUnsaid(toMetres(block, meaning));
  if (rowsRunNorth) reverseRows(block, blockPx);
  if (columnsRunWest)
    for (let at = 0; at < block.length; at += blockPx) block.subarray(at, at + blockPx).reverse();
  return block;

  async function copied(): Promise<StoredCells> {
    const made = fits32 ? new Float32Array(blockPx * blockPx) : new Float64Array(blockPx * blockPx);
    made.fill(NaN);
    await cells.copy(window, made, blockPx, cancel);
    return made;
  }
}

function reverseRows(block: StoredCells, side: number): void {
  for (let top = 0, bottom = side - 1; top < bottom; top++, bottom--) {
    const kept = block.slice(top * side, (top + 1) * side);
    block.copyWithin(top * side, bottom * side, (bottom + 1) * side);
    block.set(kept, bottom * side);
  }
}
