import { limits } from '../limits';
import { refuse } from '../refusal';
import { compressionName, isSupportedCompression } from './compression-names';
import type { Field } from './directory';
import type { FieldValues } from './field-values';
import { tag } from './tags';

export interface SampleType {
  readonly kind: 'uint' | 'int' | 'float';
  readonly bits: number;
}

/** How one picture of the file is stored: its size, its cells and where its tiles or strips lie. */
export interface Picture {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly bands: number;
  /** Which of them is read, from 0. */
  readonly band: number;
  /** Bands one after the other (2) or together cell by cell (1). */
  readonly isPlanar: boolean;
  readonly sample: SampleType;
  readonly compression: number;
  readonly lercAddition: number;
  readonly predictor: number;
  readonly photometric: number;
  readonly isTiled: boolean;
  readonly chunkWidthPx: number;
  readonly chunkHeightPx: number;
  readonly chunksAcross: number;
  readonly chunksDown: number;
  readonly isLittleEndian: boolean;
}

/** A picture with the file's list of where its tiles or strips lie. */
export interface ListedPicture extends Picture {
  readonly offsets: Field;
  readonly byteCounts: Field;
}

/** Reads and checks a picture's layout. Nothing of its size is allocated here. */
export async function readPicture(values: FieldValues, isMask = false): Promise<ListedPicture> {
  const { name } = values.reader;
  const widthPx = await values.number(tag.imageWidth, 0);
  const heightPx = await values.number(tag.imageLength, 0);
  if (!isCount(widthPx) || !isCount(heightPx))
    refuse('TIF-004', name, 'image size', `is ${widthPx} x ${heightPx} cells`);
  if (widthPx > limits.widthPx || heightPx > limits.widthPx)
    refuse('TIF-005', name, 'image size', `claims ${widthPx} x ${heightPx} cells`);

  const bands = await values.number(tag.samplesPerPixel, 1);
  if (!isCount(bands) || bands > limits.samplesPerPixel)
    refuse('TIF-006', name, 'bands', `claims ${bands} bands per cell; one band of elevations is expected`);
  const sample = await readSampleType(values, bands);
  const compression = await values.number(tag.compression, 1);
  if (!isSupportedCompression(compression))
    refuse(
      'TIF-008',
      name,
      'compression',
      `is ${compressionName(compression)} (${compression}), which is not read here`,
    );
  const lerc = await values.numbers(tag.lercParameters);
  const layout = await readChunkLayout(values, widthPx, heightPx);
  const isPlanar = bands > 1 && (await values.number(tag.planarConfiguration, 1)) === 2;
  const picture: ListedPicture = {
    widthPx,
    heightPx,
    bands,
    band: 0,
    isPlanar,
    sample,
    compression,
    lercAddition: lerc[1] ?? 0,
    predictor: await values.number(tag.predictor, 1),
    photometric: await values.number(tag.photometric, 1),
    ...layout,
    isLittleEndian: values.format.isLittleEndian,
  };
  checkSize(name, picture);
  if ((await values.number(tag.fillOrder, 1)) !== 1)
    refuse('TIF-009', name, 'fill order', 'has its bits in reverse order');
  checkCoding(name, picture, isMask);
  return picture;
}

async function readSampleType(values: FieldValues, bands: number): Promise<SampleType> {
  const { name } = values.reader;
  const all = await values.numbers(tag.bitsPerSample);
  const bits = all[0] ?? 1;
  if (all.some((b) => b !== bits))
    refuse('TIF-009', name, 'bits per sample', `differ between bands: ${all.slice(0, 8).join(', ')}`);
  const formats = await values.numbers(tag.sampleFormat);
  const format = formats[0] ?? 1;
  if (formats.some((f) => f !== format))
    refuse('TIF-009', name, 'sample format', `differs between bands: ${formats.slice(0, 8).join(', ')}`);
  const kind = ({ 1: 'uint', 2: 'int', 3: 'float', 4: 'uint' } as const)[format];
  if (kind === undefined)
    refuse('TIF-009', name, 'sample format', `is ${format}, neither whole nor real numbers`);
  if (all.length > 1 && all.length !== bands)
    refuse('TIF-004', name, 'bits per sample', `names ${all.length} of ${bands} bands`);
  return { kind, bits };
}

async function readChunkLayout(values: FieldValues, widthPx: number, heightPx: number) {
  const { name } = values.reader;
  const { fields } = values.directory;
  const isTiled = fields.has(tag.tileOffsets);
  const offsets = fields.get(isTiled ? tag.tileOffsets : tag.stripOffsets);
  const byteCounts = fields.get(isTiled ? tag.tileByteCounts : tag.stripByteCounts);
  if (offsets === undefined || byteCounts === undefined)
    refuse('TIF-004', name, 'image', 'does not say where its tiles or strips lie');
  if (!isOffsetType(offsets.type) || !isOffsetType(byteCounts.type))
    refuse('TIF-004', name, 'image', 'does not say in whole numbers where its tiles or strips lie');
  const rowsPerStrip = await values.number(tag.rowsPerStrip, heightPx);
  const chunkWidthPx = isTiled ? await values.number(tag.tileWidth, 0) : widthPx;
  const chunkHeightPx = isTiled ? await values.number(tag.tileLength, 0) : Math.min(rowsPerStrip, heightPx);
  if (!isCount(chunkWidthPx) || !isCount(chunkHeightPx))
    refuse('TIF-004', name, 'tile size', `is ${chunkWidthPx} x ${chunkHeightPx} cells`);
  const chunksAcross = Math.ceil(widthPx / chunkWidthPx);
  const chunksDown = Math.ceil(heightPx / chunkHeightPx);
  return { isTiled, chunkWidthPx, chunkHeightPx, chunksAcross, chunksDown, offsets, byteCounts };
}

function checkSize(name: string, picture: ListedPicture): void {
  const chunks = picture.chunksAcross * picture.chunksDown * (picture.isPlanar ? picture.bands : 1);
  if (picture.offsets.count < chunks || picture.byteCounts.count < chunks)
    refuse(
      'TIF-005',
      name,
      'image size',
      `claims ${picture.widthPx} x ${picture.heightPx} cells in ${chunks} tiles or strips, ` +
        `but lists ${Math.min(picture.offsets.count, picture.byteCounts.count)}`,
    );
  if (chunkBytes(picture) > limits.chunkBytes)
    refuse(
      'TIF-005',
      name,
      'tile size',
      `claims ${picture.chunkWidthPx} x ${picture.chunkHeightPx} cells of ${picture.bands} x ` +
        `${picture.sample.bits} bits in one piece (${Math.round(chunkBytes(picture) / 2 ** 20)} MB)`,
    );
}

function checkCoding(name: string, { sample, predictor, compression }: Picture, isMask: boolean): void {
  const { kind, bits } = sample;
  const isWholeBytes = kind === 'float' ? bits === 32 || bits === 64 : [8, 16, 32].includes(bits);
  if (!isWholeBytes && !(isMask && bits === 1))
    refuse(
      'TIF-009',
      name,
      'cells',
      `are ${bits}-bit ${kind === 'float' ? 'real' : 'whole'} numbers, not read here`,
    );
  if (compression === lercCode && predictor !== 1)
    refuse('TIF-009', name, 'predictor', `is predictor ${predictor} on LERC data, where it has no meaning`);
  const isKnown = predictor === 1 || (predictor === 2 && bits >= 8) || (predictor === 3 && kind === 'float');
  if (!isKnown)
    refuse('TIF-009', name, 'predictor', `is predictor ${predictor} on ${bits}-bit cells, not read here`);
}

export const lercCode = 34887;

/** Bytes of one tile or strip once decoded (all its bands where they lie together). */
export function chunkBytes(picture: Picture, rows = picture.chunkHeightPx): number {
  return rowBytes(picture) * rows;
}

export function rowBytes({ chunkWidthPx, bands, isPlanar, sample }: Picture): number {
  return Math.ceil((chunkWidthPx * (isPlanar ? 1 : bands) * sample.bits) / 8);
}

/** SHORT, LONG, IFD, LONG8, IFD8. */
const isOffsetType = (type: number) => [3, 4, 13, 16, 18].includes(type);
const isCount = (n: number) => Number.isSafeInteger(n) && n > 0;
