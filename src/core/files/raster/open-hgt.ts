import type { Raster } from '../../domain/raster';
import { makeFrame } from './crs/frame';
import { settle } from './crs/settle';
import { systemOfEpsg } from './crs/system';
import { gridRaster } from './grid-raster';
import type { GuardedReader } from './guarded-reader';
import { inflaterInScript } from './codec/inflate';
import { RasterNotes } from './raster-notes';
import { refuse } from './refusal';
import type { ChunkMap } from './tiff/chunk-map';
import type { Picture } from './tiff/picture';
import { PictureCells } from './tiff/picture-cells';
import { surveyPicture } from './tiff/survey-picture';
import { readTiffBlock } from './tiff/tiff-blocks';
import { weigh } from './weigh';

const cornerName = /(?:^|[^a-z0-9])([ns])(\d{2})_?([ew])(\d{3})/i;
const void16 = -32768;
const blockPx = 256;

/** An .hgt tile by its name, whatever its content. */
export const isHgtName = (name: string) => /\.hgt$/i.test(name);

/**
 * Opens one degree tile of big-endian 16-bit whole metres, 1201 or 3601 a side; the name gives the south-west corner, and
 * the outer cells' centres lie on the degree lines, shared with the neighbours (USGS, "SRTM Topography", 2.1).
 */
export async function openHgt(reader: GuardedReader, checksum: string | null): Promise<Raster> {
  const { name } = reader;
  const side = Math.sqrt(reader.sizeBytes / 2);
  if (side !== 1201 && side !== 3601)
    refuse('HGT-001', name, null, `has ${reader.sizeBytes} bytes, which is no tile of 1201 or 3601 rows`);
  const corner = cornerName.exec(name);
  const southDeg = Number(corner?.[2]) * (corner?.[1]?.toUpperCase() === 'S' ? -1 : 1);
  const westDeg = Number(corner?.[4]) * (corner?.[3]?.toUpperCase() === 'W' ? -1 : 1);
  if (!(Math.abs(southDeg) < 90 && Math.abs(westDeg) <= 180))
    refuse('HGT-002', name, null, 'does not say in its name where the tile lies');
  const cellDeg = 1 / (side - 1);
  const affine = {
    x0: westDeg - cellDeg / 2,
    y0: southDeg + 1 + cellDeg / 2,
    colX: cellDeg,
    colY: 0,
    rowX: 0,
    rowY: -cellDeg,
  };
  const notes = new RasterNotes(name);
  const system = (await systemOfEpsg(4326))!;
  const grid = { name, affine, widthPx: side, heightPx: side };
  const crs = settle(system, grid, notes);
  const frame = makeFrame(crs, westDeg + 0.5);
  const meaning = { nodata: void16, scale: 1, offset: 0, metresPerUnit: 1 };
  const cells = new PictureCells(rowsOfTile(reader, side), inflaterInScript);
  const survey = await surveyPicture(cells, [], meaning);
  const stated = { metres: 1, where: 'format' };
  const heightsFrom = 'sea level';
  weigh(
    {
      grid: { ...grid, frame },
      crs,
      survey,
      meaning,
      stated,
      heightsFrom,
      chosen: undefined,
      isWholeCells: true,
    },
    notes,
  );
  const placement = { rowsRunNorth: false, columnsRunWest: false };
  const blocks = { cells, masks: [], placement, meaning, blockPx, onUnsaid: notes.unsaid.bind(notes) };
  return gridRaster({
    ...grid,
    frame,
    surveyed: null,
    heightsFrom,
    encoding: 'int16, hgt',
    checksum,
    notes: notes.list,
    blockPx,
    overviews: [],
    readBlock: (col, row, cancel) => readTiffBlock(blocks, col, row, cancel),
  });
}

/** The tile as uncompressed big-endian strips of 64 rows. */
function rowsOfTile(reader: GuardedReader, side: number): ChunkMap {
  const rows = 64;
  const picture: Picture = {
    widthPx: side,
    heightPx: side,
    bands: 1,
    band: 0,
    isPlanar: false,
    sample: { kind: 'int', bits: 16 },
    compression: 1,
    lercAddition: 0,
    predictor: 1,
    photometric: 1,
    isTiled: false,
    chunkWidthPx: side,
    chunkHeightPx: rows,
    chunksAcross: 1,
    chunksDown: Math.ceil(side / rows),
    isLittleEndian: false,
  };
  const rowsOf = (chunk: number) => Math.min(rows, side - chunk * rows);
  const rowBytes = side * 2;
  return {
    picture,
    reader,
    rowsOf,
    span: (chunk) =>
      Promise.resolve({ offset: chunk * rows * rowBytes, lengthBytes: rowsOf(chunk) * rowBytes }),
  };
}
