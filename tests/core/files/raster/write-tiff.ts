/** Writes small GeoTIFFs by hand, right or wrong as asked, without any library. */

export type Values = readonly number[] | string;
export type FieldText = readonly [tag: number, type: number, values: Values];

export interface TiffPlan {
  readonly widthPx?: number;
  readonly heightPx?: number;
  /** Cell values as stored, row-major from the first row of the file. */
  readonly cells?: readonly number[];
  readonly kind?: 'uint' | 'int' | 'float';
  readonly bits?: number;
  readonly bands?: number;
  readonly rowsPerStrip?: number;
  readonly isLittle?: boolean;
  readonly isBig?: boolean;
  readonly compression?: number;
  readonly predictor?: number;
  /** Turns a strip's plain bytes into stored ones. */
  readonly pack?: (bytes: Uint8Array) => Uint8Array;
  /** Fields beside or instead of the usual ones. */
  readonly fields?: readonly FieldText[];
  /** Usual fields left out. */
  readonly without?: readonly number[];
  /** Further directories; offset of the next by default 0. */
  readonly more?: readonly (readonly FieldText[])[];
  /** Where the last directory points to. */
  readonly lastNext?: number;
}

const typeBytes: Readonly<Record<number, number>> = { 1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 11: 4, 12: 8, 16: 8 };

/** UTM 32 north, cells of 10 m, north-west corner at 500 000 east, 5 100 000 north. */
export const utmFields: readonly FieldText[] = [
  [33550, 12, [10, 10, 0]],
  [33922, 12, [0, 0, 0, 500000, 5100000, 0]],
  [34735, 3, [1, 1, 0, 3, 1024, 0, 1, 1, 1025, 0, 1, 1, 3072, 0, 1, 32632]],
];

export const geoKeys = (...keys: readonly (readonly [key: number, value: number])[]): FieldText => [
  34735,
  3,
  [1, 1, 0, keys.length, ...keys.flatMap(([key, value]) => [key, 0, 1, value])],
];

export function writeTiff(plan: TiffPlan = {}): Uint8Array {
  const { widthPx = 4, heightPx = 3, kind = 'float', bits = 32, bands = 1 } = plan;
  const { isLittle = true, isBig = false, rowsPerStrip = heightPx } = plan;
  const cells = plan.cells ?? Array.from({ length: widthPx * heightPx * bands }, (_, i) => 1000 + i);
  const strips = stripsOf(cells, widthPx * bands, rowsPerStrip).map((strip) => {
    const plain = bytesOf(strip, kind, bits, isLittle);
    return plan.pack === undefined ? plain : plan.pack(plain);
  });
  const usual: FieldText[] = [
    [256, 4, [widthPx]],
    [257, 4, [heightPx]],
    [258, 3, Array.from({ length: bands }, () => bits)],
    [259, 3, [plan.compression ?? 1]],
    [262, 3, [1]],
    [273, 4, strips.map(() => 0)],
    [277, 3, [bands]],
    [278, 4, [rowsPerStrip]],
    [279, 4, strips.map((strip) => strip.length)],
    [339, 3, [{ uint: 1, int: 2, float: 3 }[kind]]],
    ...(plan.predictor === undefined ? [] : ([[317, 3, [plan.predictor]]] as const)),
    ...utmFields,
  ];
  const own = new Map((plan.fields ?? []).map((field) => [field[0], field]));
  const kept = usual.filter(([tag]) => !own.has(tag) && !(plan.without ?? []).includes(tag));
  const main = [...kept, ...(plan.fields ?? [])].sort((a, b) => a[0] - b[0]);
  return assemble([main, ...(plan.more ?? [])], strips, { isLittle, isBig, lastNext: plan.lastNext ?? 0 });
}

interface Form {
  readonly isLittle: boolean;
  readonly isBig: boolean;
  readonly lastNext: number;
}

function assemble(
  directories: readonly (readonly FieldText[])[],
  strips: readonly Uint8Array[],
  form: Form,
): Uint8Array {
  const { isLittle, isBig } = form;
  const headBytes = isBig ? 16 : 8;
  let end = headBytes;
  const stripAt = strips.map((strip) => {
    const at = end;
    end += strip.length + (strip.length % 2);
    return at;
  });
  const outside: { at: number; bytes: Uint8Array }[] = strips.map((bytes, i) => ({
    at: stripAt[i] ?? 0,
    bytes,
  }));
  const place = (bytes: Uint8Array): number => {
    const at = end;
    outside.push({ at, bytes });
    end += bytes.length + (bytes.length % 2);
    return at;
  };
  const blocks = directories.map((fields) => {
    const entries = fields.map(([tag, type, values]) => {
      const isOffsets =
        (tag === 273 || tag === 324) && typeof values !== 'string' && values.every((v) => v === 0);
      const bytes = fieldBytes(type, isOffsets ? stripAt.slice(0, values.length) : values, isLittle);
      const size = typeBytes[type] ?? 1;
      return { tag, type, count: bytes.length / size, bytes };
    });
    return { entries, at: 0 };
  });
  for (const block of blocks) {
    block.at = end;
    end += (isBig ? 16 : 6) + block.entries.length * (isBig ? 20 : 12);
  }
  const written = blocks.map(({ entries, at }, i) => {
    const next = blocks[i + 1]?.at ?? form.lastNext;
    const out = new DataView(new ArrayBuffer((isBig ? 16 : 6) + entries.length * (isBig ? 20 : 12)));
    const long = (offset: number, value: number) =>
      isBig ? out.setBigUint64(offset, BigInt(value), isLittle) : out.setUint32(offset, value, isLittle);
    if (isBig) long(0, entries.length);
    else out.setUint16(0, entries.length, isLittle);
    entries.forEach(({ tag, type, count, bytes }, k) => {
      const offset = (isBig ? 8 : 2) + k * (isBig ? 20 : 12);
      out.setUint16(offset, tag, isLittle);
      out.setUint16(offset + 2, type, isLittle);
      long(offset + 4, count);
      const valueAt = offset + (isBig ? 12 : 8);
      if (bytes.length <= (isBig ? 8 : 4)) new Uint8Array(out.buffer).set(bytes, valueAt);
      else long(valueAt, place(bytes));
    });
    long(out.byteLength - (isBig ? 8 : 4), next);
    return { at, bytes: new Uint8Array(out.buffer) };
  });
  const file = new Uint8Array(end);
  const head = new DataView(file.buffer);
  file.fill(isLittle ? 0x49 : 0x4d, 0, 2);
  head.setUint16(2, isBig ? 43 : 42, isLittle);
  if (isBig) {
    head.setUint16(4, 8, isLittle);
    head.setBigUint64(8, BigInt(blocks[0]?.at ?? 0), isLittle);
  } else head.setUint32(4, blocks[0]?.at ?? 0, isLittle);
  for (const { at, bytes } of [...outside, ...written]) file.set(bytes, at);
  return file;
}

function stripsOf(cells: readonly number[], perRow: number, rows: number): number[][] {
  const strips: number[][] = [];
  for (let at = 0; at < cells.length; at += perRow * rows) strips.push(cells.slice(at, at + perRow * rows));
  return strips;
}

export function bytesOf(
  values: readonly number[],
  kind: string,
  bits: number,
  isLittle: boolean,
): Uint8Array {
  const size = bits / 8;
  const view = new DataView(new ArrayBuffer(values.length * size));
  values.forEach((value, i) => {
    const at = i * size;
    if (kind === 'float' && bits === 32) view.setFloat32(at, value, isLittle);
    else if (kind === 'float') view.setFloat64(at, value, isLittle);
    else if (bits === 8) view.setUint8(at, value);
    else if (bits === 16) view.setUint16(at, value & 0xffff, isLittle);
    else view.setUint32(at, value >>> 0, isLittle);
  });
  return new Uint8Array(view.buffer);
}

function fieldBytes(type: number, values: Values, isLittle: boolean): Uint8Array {
  if (typeof values === 'string') return new TextEncoder().encode(values);
  const size = typeBytes[type] ?? 1;
  const view = new DataView(new ArrayBuffer(values.length * size));
  values.forEach((value, i) => {
    const at = i * size;
    if (type === 12) view.setFloat64(at, value, isLittle);
    else if (type === 11) view.setFloat32(at, value, isLittle);
    else if (type === 16) view.setBigUint64(at, BigInt(value), isLittle);
    else if (type === 5) view.setUint32(at, value, isLittle);
    else if (size === 1) view.setUint8(at, value);
    else if (size === 2) view.setUint16(at, value, isLittle);
    else view.setUint32(at, value, isLittle);
  });
  return new Uint8Array(view.buffer);
}
