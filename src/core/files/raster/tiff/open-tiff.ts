import type { Affine, MapFrame, Raster } from '../../../domain/raster';
import type { CellMeaning } from '../cell-meaning';
import { inflaterInScript, type Inflater } from '../codec/inflate';
import { chosenSystem, systemOfKeys } from '../crs/crs-of-raster';
import { makeFrame, type CrsDefinition } from '../crs/frame';
import { settle } from '../crs/settle';
import { gridRaster } from '../grid-raster';
import type { GuardedReader } from '../guarded-reader';
import type { RasterOptions } from '../raster-options';
import { RasterNotes } from '../raster-notes';
import { refuse } from '../refusal';
import { weigh } from '../weigh';
import { checkBands } from './check-bands';
import { ChunkIndex } from './chunk-index';
import { compressionName } from './compression-names';
import { readDirectories } from './directory';
import { FieldValues } from './field-values';
import { parseGdalMetadata } from './gdal-metadata';
import { readGeoKeys } from './geo-keys';
import { readPlacement, type Placement } from './georeference';
import type { Picture } from './picture';
import { PictureCells } from './picture-cells';
import { readMeaning } from './read-meaning';
import { sortPictures, type StoredPicture } from './sort-pictures';
import { surveyPicture } from './survey-picture';
import { tag } from './tags';
import { blockSidePx, readTiffBlock, type TiffBlocks } from './tiff-blocks';

/** Opens a GeoTIFF: guards first, then place and meaning of the cells, then a look at some; blocks are read on demand. */
export async function openTiff(
  reader: GuardedReader,
  options: RasterOptions,
  checksum: string | null,
): Promise<Raster> {
  const { name } = reader;
  const notes = new RasterNotes(name);
  const directories = await readDirectories(reader);
  const all = directories.list.map((d) => new FieldValues(reader, directories.format, d));
  const [first, ...others] = all as [FieldValues, ...FieldValues[]]; // the guards let no file through without
  const pictures = await sortPictures(first, others, notes);
  const { main, overviews } = pictures;
  checkBands(name, main.picture, options.elevationUnit !== undefined, notes);
  sayBeside(name, options.beside ?? [], notes);
  const alphaBand = await alphaBandOf(main);
  const { placement, crs, read } = await placeAndMeaning(first, main.picture, options, notes);
  if (directories.isCutOff)
    notes.add('TIF-111', 'The file is cut off: its list of pictures goes on past its end.');
  await new ChunkIndex(first, main.picture).noteCutOff(notes);

  const inflater = options.inflater ?? inflaterInScript;
  const blocksOf = (stored: StoredPicture): TiffBlocks =>
    blocksOfPicture(stored, {
      masks: pictures.masks,
      alphaBand,
      placement,
      meaning: read.meaning,
      inflater,
      notes,
    });
  const blocks = blocksOf(main);
  const small = overviews.findLast(({ picture }) => picture.widthPx * picture.heightPx >= 1024);
  const looked = small === undefined ? blocks : blocksOf(small);
  const survey = await surveyPicture(looked.cells, looked.masks, read.meaning);
  const { widthPx, heightPx, sample } = main.picture;
  const { affine } = placement;
  const frame = frameOf(crs, affine.x0 + (widthPx / 2) * affine.colX);
  weigh(
    {
      grid: { name, widthPx, heightPx, affine, frame },
      ...{ crs, survey, ...read },
      chosen: options.elevationUnit,
      isWholeCells: sample.kind !== 'float',
    },
    notes,
  );

  const { surveyed, heightsFrom } = read;
  const encoding = encodingText(main.picture, placement.isPoint);
  const facts = { name, frame, surveyed, heightsFrom, encoding, checksum, notes: notes.list };
  const rasterOf = ({ picture }: StoredPicture, own: TiffBlocks, coarser: readonly Raster[]): Raster =>
    gridRaster({
      ...facts,
      widthPx: picture.widthPx,
      heightPx: picture.heightPx,
      affine: coarserAffine(affine, main.picture, picture),
      blockPx: own.blockPx,
      overviews: coarser,
      readBlock: (col, row, cancel) => readTiffBlock(own, col, row, cancel),
    });
  return rasterOf(
    main,
    blocks,
    overviews.map((overview) => rasterOf(overview, blocksOf(overview), [])),
  );
}

/** Where the cells lie, in which system, and what a stored number means. */
async function placeAndMeaning(
  first: FieldValues,
  { widthPx, heightPx }: Picture,
  options: RasterOptions,
  notes: RasterNotes,
) {
  const { name } = first.reader;
  const keys = await readGeoKeys(first);
  const placement = await readPlacement(first, keys, widthPx, heightPx, options.worldFile);
  const system =
    options.crs === undefined ? await systemOfKeys(name, keys) : await chosenSystem(name, options.crs);
  const crs = settle(system, { name, affine: placement.affine, widthPx, heightPx }, notes);
  const metadata =
    parseGdalMetadata(await first.text(tag.gdalMetadata)) ??
    refuse('TIF-016', name, 'tag 42112', 'speaks of a scale, offset or unit that cannot be read');
  const meaning = await readMeaning(first, keys, metadata, options.elevationUnit);
  return { placement, crs, read: { ...meaning, surveyed: metadata.surveyed } };
}

interface BlocksFrom {
  readonly masks: readonly StoredPicture[];
  readonly alphaBand: number | null;
  readonly placement: Placement;
  readonly meaning: CellMeaning;
  readonly inflater: Inflater;
  readonly notes: RasterNotes;
}

/** One picture's cells and what masks them, by blocks. */
function blocksOfPicture(
  { values, picture }: StoredPicture,
  { masks, alphaBand, placement, meaning, inflater, notes }: BlocksFrom,
): TiffBlocks {
  const ofSize = (other: StoredPicture) =>
    other.picture.widthPx === picture.widthPx && other.picture.heightPx === picture.heightPx;
  const alpha = alphaBand === null ? [] : [{ values, picture: { ...picture, band: alphaBand } }];
  const blockPx = blockSidePx(picture);
  const isAligned = blockPx === picture.chunkWidthPx && !placement.rowsRunNorth && !placement.columnsRunWest;
  return {
    cells: new PictureCells(new ChunkIndex(values, picture), inflater, !isAligned),
    masks: [...masks.filter(ofSize), ...alpha].map(
      (mask) => new PictureCells(new ChunkIndex(mask.values, mask.picture), inflater),
    ),
    placement,
    meaning,
    blockPx,
    onUnsaid: (unsaid) => notes.unsaid(unsaid),
  };
}

/** A coarser picture covers the same ground: its cells are the whole extent by its own count (its corner, not its ties). */
const coarserAffine = (affine: Affine, main: Picture, own: Picture): Affine => ({
  ...affine,
  colX: (affine.colX * main.widthPx) / own.widthPx,
  rowY: (affine.rowY * main.heightPx) / own.heightPx,
});

const encodingText = ({ sample, compression }: Picture, isPoint: boolean): string =>
  [
    `${sample.kind}${sample.bits}`,
    compressionName(compression),
    ...(isPoint ? ['cells are points'] : []),
  ].join(', ');

/** The last band, where the file says that it tells how opaque a cell is (ExtraSamples 1 and 2, TIFF 6.0 p. 31). */
async function alphaBandOf({ values, picture: { bands } }: StoredPicture): Promise<number | null> {
  const extra = (await values.numbers(tag.extraSamples)).at(-1);
  return bands > 1 && (extra === 1 || extra === 2) ? bands - 1 : null;
}

/** A mask in another file would be lost, and with it holes; coarser pictures are only for looks. */
function sayBeside(name: string, beside: readonly string[], notes: RasterNotes): void {
  const mask = beside.find((file) => /\.msk$/i.test(file));
  if (mask !== undefined) refuse('TIF-018', name, mask, 'says which cells hold data, and is not read here');
  if (beside.length > 0)
    notes.add('TIF-112', `Beside it lies ${beside.join(', ')}, which is not read: the file alone is.`);
}

const frameOf = (crs: CrsDefinition, centreX: number): MapFrame =>
  makeFrame(crs, crs.isGeographic ? centreX : 0);
