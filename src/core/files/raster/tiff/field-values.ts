import type { GuardedReader } from '../guarded-reader';
import { limits } from '../limits';
import { refuse } from '../refusal';
import { fieldBytes, type Directory, type Field, type TiffFormat } from './directory';

/** Reads the values of one directory's fields. */
export class FieldValues {
  constructor(
    readonly reader: GuardedReader,
    readonly format: TiffFormat,
    readonly directory: Directory,
  ) {}

  has(tag: number): boolean {
    return this.directory.fields.has(tag);
  }

  /** All numbers of a field; empty when there is no such tag or it is text. */
  async numbers(tag: number): Promise<readonly number[]> {
    const field = this.directory.fields.get(tag);
    if (field === undefined || field.type === 2) return [];
    return this.slice(field, 0, field.count);
  }

  /** A field that holds one whole number and no more. */
  async number(tag: number, otherwise: number): Promise<number> {
    const field = this.directory.fields.get(tag);
    if (field === undefined) return otherwise;
    if (field.count !== 1 || ![1, 3, 4, 13, 16, 18].includes(field.type))
      refuse(
        'TIF-004',
        this.reader.name,
        `tag ${tag}`,
        `holds ${field.count} values of type ${field.type}, not one whole number`,
      );
    return (await this.slice(field, 0, 1))[0]!;
  }

  /** Text with its closing NULs dropped; null when there is no such tag. Latin-1 bytes are kept as they are. */
  async text(tag: number): Promise<string | null> {
    const field = this.directory.fields.get(tag);
    if (field === undefined || field.type !== 2) return null;
    const bytes = await this.#bytes(field, 0, field.count);
    return new TextDecoder('utf-8').decode(bytes).replace(/\0+$/, '');
  }

  /** Values `from` to `to` of a field; for tile offsets, which may be too many to hold. */
  async slice(field: Field, from: number, to: number): Promise<readonly number[]> {
    const bytes = await this.#bytes(field, from, to);
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    const size = fieldBytes(field) / field.count;
    return Array.from({ length: to - from }, (_, i) => readValue(view, i * size, field.type, this.format));
  }

  async #bytes(field: Field, from: number, to: number): Promise<Uint8Array> {
    const size = field.count === 0 ? 0 : fieldBytes(field) / field.count;
    const place = `tag ${field.tag}`;
    const length = (to - from) * size;
    if (length > limits.tagBytes)
      refuse('TIF-004', this.reader.name, place, `holds ${length} bytes, more than ${limits.tagBytes}`);
    return this.reader.bytes(field.offset + from * size, length, place);
  }
}

function readValue(view: DataView, at: number, type: number, { isLittleEndian: little }: TiffFormat): number {
  switch (type) {
    case 1:
    case 7:
      return view.getUint8(at);
    case 3:
      return view.getUint16(at, little);
    case 4:
    case 13:
      return view.getUint32(at, little);
    case 5:
      return view.getUint32(at, little) / view.getUint32(at + 4, little);
    case 6:
      return view.getInt8(at);
    case 8:
      return view.getInt16(at, little);
    case 9:
      return view.getInt32(at, little);
    case 10:
      return view.getInt32(at, little) / view.getInt32(at + 4, little);
    case 11:
      return view.getFloat32(at, little);
    case 12:
      return view.getFloat64(at, little);
    case 17:
      return Number(view.getBigInt64(at, little));
    default:
      return Number(view.getBigUint64(at, little));
  }
}
