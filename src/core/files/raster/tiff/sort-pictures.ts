import { ProblemError } from '../../../domain/raster';
import type { RasterNotes } from '../raster-notes';
import type { FieldValues } from './field-values';
import { readPicture, type ListedPicture, type Picture } from './picture';
import { tag } from './tags';

export interface StoredPicture {
  readonly values: FieldValues;
  readonly picture: ListedPicture;
}

export interface Pictures {
  readonly main: StoredPicture;
  /** They say which cells of the picture of their size hold data. */
  readonly masks: readonly StoredPicture[];
  /** Coarser ones, coarsest last. */
  readonly overviews: readonly StoredPicture[];
}

/**
 * Tells the file's pictures apart by NewSubfileType (TIFF 6.0 p. 36): bit 0 reduced, bit 2 mask. The first is the main one.
 * An overview that cannot be read is left out and said; an unreadable mask refuses the file, as holes would be lost.
 */
export async function sortPictures(
  first: FieldValues,
  others: readonly FieldValues[],
  notes: RasterNotes,
): Promise<Pictures> {
  const main = { values: first, picture: await readPicture(first) };
  const masks: StoredPicture[] = [];
  const overviews: StoredPicture[] = [];
  for (const values of others) {
    const kind = await values.number(tag.newSubfileType, 0);
    if ((kind & 4) !== 0) masks.push({ values, picture: await readPicture(values, true) });
    else if ((kind & 1) === 0) notes.add('TIF-105', 'The file holds several pictures: the first is taken.');
    else {
      const overview = await readOverview(values, notes);
      if (overview !== null && isCoarser(overview.picture, main.picture)) overviews.push(overview);
    }
  }
  overviews.sort((a, b) => b.picture.widthPx - a.picture.widthPx);
  return { main, masks, overviews };
}

async function readOverview(values: FieldValues, notes: RasterNotes): Promise<StoredPicture | null> {
  try {
    return { values, picture: await readPicture(values) };
  } catch (cause) {
    if (!(cause instanceof ProblemError)) throw cause;
    notes.add(
      'TIF-106',
      'A coarser picture in the file cannot be read; the relief is drawn from the full one.',
    );
    return null;
  }
}

/** The same band structure, and smaller by the same factor both ways (a cell more or less from rounding). */
function isCoarser(overview: Picture, main: Picture): boolean {
  const factor = main.widthPx / overview.widthPx;
  const isSameShape = Math.abs(main.heightPx / factor - overview.heightPx) <= 1.5;
  return (
    factor > 1 && isSameShape && overview.bands === main.bands && overview.sample.kind === main.sample.kind
  );
}
