import type { FieldValues } from './field-values';
import { readPicture, type Picture } from './picture';
import { tag } from './tags';

export interface StoredPicture {
  readonly values: FieldValues;
  readonly picture: Picture;
}

export interface Pictures {
  readonly main: Picture;
  /** Says which cells of the main picture hold data. */
  readonly mask: StoredPicture | null;
  /** Coarser ones, coarsest last. */
  readonly overviews: readonly StoredPicture[];
}

/** Tells the file's pictures apart by NewSubfileType (TIFF 6.0 p. 36): bit 0 reduced, bit 2 mask. The first is the main one. */
export async function sortPictures(first: FieldValues, others: readonly FieldValues[]): Promise<Pictures> {
  const main = await readPicture(first);
  let mask: StoredPicture | null = null;
  const overviews: StoredPicture[] = [];
  for (const values of others) {
    const kind = await values.number(tag.newSubfileType, 0);
    const isMask = (kind & 4) !== 0;
    const isReduced = (kind & 1) !== 0;
    if (!isMask && !isReduced) continue;
    const picture = await readPicture(values, isMask);
    if (!isMask) overviews.push({ values, picture });
    else if (!isReduced && picture.widthPx === main.widthPx && picture.heightPx === main.heightPx)
      mask ??= { values, picture };
  }
  overviews.sort((a, b) => b.picture.widthPx - a.picture.widthPx);
  return { main, mask, overviews };
}
