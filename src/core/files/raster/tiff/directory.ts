import type { GuardedReader } from '../guarded-reader';
import { limits } from '../limits';
import { refuse } from '../refusal';

/** Bytes per value by TIFF field type (TIFF 6.0 p. 15; BigTIFF adds 16 to 18). */
const typeBytes: Readonly<Record<number, number>> = {
  1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 6: 1, 7: 1, 8: 2, 9: 4, 10: 8, 11: 4, 12: 8, 13: 4, 16: 8, 17: 8, 18: 8,
}; // prettier-ignore

export interface Field {
  readonly tag: number;
  readonly type: number;
  readonly count: number;
  /** Where the values lie in the file. */
  readonly offset: number;
}

export interface TiffFormat {
  readonly isLittleEndian: boolean;
  readonly isBig: boolean;
}

/** One image file directory: its fields, checked to lie inside the file, values not read yet. */
export interface Directory {
  readonly offset: number;
  readonly fields: ReadonlyMap<number, Field>;
}

export interface Directories {
  readonly format: TiffFormat;
  readonly list: readonly Directory[];
  /** The chain goes on past the end of the file. */
  readonly isCutOff: boolean;
}

/**
 * Walks the chain of directories, classic or BigTIFF, either byte order.
 * Refuses cycles, duplicate tags and anything outside the file; a later directory beyond the end only cuts the chain.
 */
export async function readDirectories(reader: GuardedReader): Promise<Directories> {
  const { format, first } = await readHeader(reader);
  const list: Directory[] = [];
  const seen = new Set<number>();
  for (let offset = first; offset !== 0;) {
    const place = `directory ${list.length + 1}`;
    if (seen.has(offset))
      refuse('TIF-002', reader.name, place, `points back to byte ${offset}, already read`);
    if (list.length >= limits.directories)
      refuse('TIF-004', reader.name, place, `more than ${limits.directories} directories`);
    seen.add(offset);
    if (list.length > 0 && offset >= reader.sizeBytes) return { format, list, isCutOff: true };
    const { directory, next } = await readDirectory(reader, format, offset, place);
    list.push(directory);
    offset = next;
  }
  if (list.length === 0) refuse('TIF-003', reader.name, 'byte 4', 'has no image directory');
  return { format, list, isCutOff: false };
}

async function readHeader(reader: GuardedReader): Promise<{ format: TiffFormat; first: number }> {
  const view = await reader.view(0, Math.min(16, reader.sizeBytes), 'header');
  const isLittleEndian = view.getUint8(0) === 0x49;
  const isBig = view.getUint16(2, isLittleEndian) === 43;
  const format = { isLittleEndian, isBig };
  if (view.byteLength < (isBig ? 16 : 8))
    refuse('TIF-003', reader.name, 'header', `has ${reader.sizeBytes} bytes, less than a TIFF header`);
  if (!isBig) return { format, first: view.getUint32(4, isLittleEndian) };
  if (view.getUint16(4, isLittleEndian) !== 8)
    refuse('TIF-004', reader.name, 'byte 4', 'BigTIFF offsets are not 8 bytes wide');
  return { format, first: offset64(view, 8, isLittleEndian) };
}

async function readDirectory(reader: GuardedReader, format: TiffFormat, offset: number, place: string) {
  const { isLittleEndian, isBig } = format;
  const countBytes = isBig ? 8 : 2;
  const entryBytes = isBig ? 20 : 12;
  const head = await reader.view(offset, countBytes, place);
  const count = isBig ? offset64(head, 0, isLittleEndian) : head.getUint16(0, isLittleEndian);
  if (count === 0 || count > limits.tags) refuse('TIF-004', reader.name, place, `claims ${count} tags`);
  const tailBytes = isBig ? 8 : 4;
  const view = await reader.view(offset + countBytes, count * entryBytes + tailBytes, place);

  const fields = new Map<number, Field>();
  for (let i = 0; i < count; i++) {
    const at = i * entryBytes;
    const field = readField(view, at, format, offset + countBytes + at);
    if (field === null) continue; // a type this edition does not know; readers must skip it (TIFF 6.0 p. 16)
    if (fields.has(field.tag)) refuse('TIF-004', reader.name, place, `holds tag ${field.tag} twice`);
    if (field.offset + fieldBytes(field) > reader.sizeBytes)
      refuse(
        'TIF-003',
        reader.name,
        `${place}, tag ${field.tag}`,
        `lies at byte ${field.offset}, ${fieldBytes(field)} bytes long, but the file has ${reader.sizeBytes}`,
      );
    fields.set(field.tag, field);
  }
  const nextAt = count * entryBytes;
  const next = isBig ? offset64(view, nextAt, isLittleEndian) : view.getUint32(nextAt, isLittleEndian);
  return { directory: { offset, fields }, next };
}

function readField(
  view: DataView,
  at: number,
  { isLittleEndian, isBig }: TiffFormat,
  fileAt: number,
): Field | null {
  const tag = view.getUint16(at, isLittleEndian);
  const type = view.getUint16(at + 2, isLittleEndian);
  const size = typeBytes[type];
  if (size === undefined) return null;
  const count = isBig ? offset64(view, at + 4, isLittleEndian) : view.getUint32(at + 4, isLittleEndian);
  const inlineBytes = isBig ? 8 : 4;
  const valueAt = at + (isBig ? 12 : 8);
  const isInline = count * size <= inlineBytes;
  const pointer = () =>
    isBig ? offset64(view, valueAt, isLittleEndian) : view.getUint32(valueAt, isLittleEndian);
  return { tag, type, count, offset: isInline ? fileAt + (valueAt - at) : pointer() };
}

/** A 64-bit offset; beyond 2^53 it becomes a number that no bounds check lets through. */
function offset64(view: DataView, at: number, isLittleEndian: boolean): number {
  return Number(view.getBigUint64(at, isLittleEndian));
}

export function fieldBytes(field: Field): number {
  return field.count * typeBytes[field.type]!;
}
