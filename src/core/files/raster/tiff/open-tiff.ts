import type { Note } from '../../../domain/problem';
import type { Raster } from '../../../domain/raster';
import type { Unsaid } from '../cell-meaning';
import { inflateInScript } from '../codec/inflate';
import { gridRaster } from '../grid-raster';
import type { GuardedReader } from '../guarded-reader';
import type { RasterOptions } from '../open';
import { chosenSystem, systemOfKeys } from '../crs/crs-of-raster';
import { makeFrame } from '../crs/frame';
import { settle } from '../crs/settle';
import { compressionName } from './compression-names';
import { readDirectories } from './directory';
import { FieldValues } from './field-values';
import { readPlacement } from './georeference';
import { readGeoKeys } from './geo-keys';
import { parseGdalMetadata } from './gdal-metadata';
import { ChunkIndex } from './chunk-index';
import { PictureCells } from './picture-cells';
import { readMeaning } from './read-meaning';
import { sortPictures } from './sort-pictures';
import { tag } from './tags';
import { blockSidePx, readTiffBlock, type TiffBlocks } from './tiff-blocks';

/** Opens a GeoTIFF: guards first, then place, meaning of the cells, and blocks read on demand. */
export async function openTiff(reader: GuardedReader, options: RasterOptions): Promise<Raster> {
  const { name } = reader;
  const directories = await readDirectories(reader);
  const [first, ...others] = directories.list.map((d) => new FieldValues(reader, directories.format, d));
  if (first === undefined) throw new Error('a TIFF without directories passed the guards');
  const { main, mask, overviews } = await sortPictures(first, others);
  const keys = await readGeoKeys(first);
  const placement = await readPlacement(first, keys, main.widthPx, main.heightPx);
  const { affine } = placement;
  const notes: Note[] = [];
  const system =
    options.crs === undefined ? await systemOfKeys(name, keys) : await chosenSystem(name, options.crs);
  const crs = settle(system, { name, affine, widthPx: main.widthPx, heightPx: main.heightPx }, notes);
  const centreX = affine.x0 + (main.widthPx / 2) * affine.colX;
  const frame = makeFrame(crs, crs.isGeographic ? centreX : 0);

  const metadata = parseGdalMetadata(await first.text(tag.gdalMetadata));
  const meaning = await readMeaning({ values: first, keys, metadata, crs, notes }, options.elevationUnit);
  const unsaid: Unsaid = { sentinels: 0, implausible: 0 };
  const inflate = options.inflate ?? inflateInScript;
  const blocks: TiffBlocks = {
    cells: new PictureCells(new ChunkIndex(first, main), inflate),
    mask: mask && new PictureCells(new ChunkIndex(mask.values, mask.picture), inflate),
    placement,
    meaning,
    unsaid,
    blockPx: blockSidePx(main),
  };
  const { kind, bits } = main.sample;
  return gridRaster({
    name,
    widthPx: main.widthPx,
    heightPx: main.heightPx,
    affine,
    frame,
    surveyed: metadata.surveyed,
    encoding: `${kind}${bits}, ${compressionName(main.compression)}`,
    checksum: null,
    notes,
    blockPx: blocks.blockPx,
    overviews: overviews.map(() => null).filter((o) => o !== null),
    readBlock: (col, row, cancel) => readTiffBlock(blocks, col, row, cancel),
  });
}
