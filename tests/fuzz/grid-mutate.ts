import { mutated, type Dice } from './mutate';

/** A file as the user hands it in. */
export interface RasterFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);
const rows = (count: number) =>
  Array.from({ length: count }, (_, row) =>
    Array.from({ length: 12 }, (__, col) => 1500 + 7 * row + ((3 * col) % 5) / 2).join(' '),
  ).join('\n');

/** Grids as text: corner or centre, spaces or line ends of all kinds. */
export const ascSeeds: readonly Uint8Array[] = [
  `ncols 12\nnrows 10\nxllcorner 500000\nyllcorner 5100000\ncellsize 10\nNODATA_value -9999\n${rows(10)}\n`,
  `NROWS 4\r\nNCOLS 12\r\nXLLCENTER 500005\r\nYLLCENTER 5100005\r\nDX 10\r\nDY 5\r\n${rows(4)}`,
  `ncols\t12 nrows 3 xllcorner 400000.5 yllcorner 5.1e6 cellsize 2.5 ${rows(3).replace('1500 ', '-9999 ')}`,
].map(encode);

const words = ['ncols', 'nrows', 'cellsize', 'nodata_value', 'xllcorner', 'yllcenter', 'dx', '0', '-1', '1e9', '1e400', 'nan', 'inf', '12', '3', '1,5', '4294967296', '1.5.2', '']; // prettier-ignore

/** Words exchanged half of the time, else bytes. */
export function mutatedAsc(dice: Dice): RasterFile {
  if (dice.roll(2) === 0) return { name: 'changed.asc', bytes: mutated(ascSeeds, dice) };
  const text = new TextDecoder('latin1').decode(dice.one(ascSeeds)).split(/(\s+)/);
  for (let n = 1 + dice.roll(3); n > 0; n--) {
    // The header is where most of the meaning is.
    const among = dice.roll(2) === 0 ? Math.min(24, text.length) : text.length;
    text[dice.roll(among)] = dice.one(words);
  }
  return { name: 'changed.asc', bytes: encode(text.join('')) };
}

const side = 1201;
const tile = new Uint8Array(side * side * 2);
for (let i = 0; i < side * side; i++) {
  const metres = 1500 + ((i % side) >> 2) + (Math.floor(i / side) >> 3);
  tile[2 * i] = metres >> 8;
  tile[2 * i + 1] = metres & 255;
}
const names = ['N46E007.hgt', 's01w072.HGT', 'N46_E007.hgt', 'S90W180.hgt', 'N99E999.hgt', '.hgt', 'alps.hgt', 'N46E07.hgt', 'xN46E007.hgt', '../N46E007.hgt', 'N46E007 (1).hgt']; // prettier-ignore
const telling = [0x8000, 0x7fff, 0xffff, 0x270f, 0xd8f1, 0, 1];

/** A tile is a length, a name and numbers: mostly another length, sometimes other numbers. */
export function mutatedHgt(dice: Dice): RasterFile {
  const name = dice.roll(3) === 0 ? dice.one(names) : 'N46E007.hgt';
  if (dice.roll(5) > 0) {
    const lengths = [
      dice.roll(tile.length),
      dice.roll(64),
      tile.length - 1,
      tile.length - 2,
      1201 * 1200 * 2,
    ];
    return { name, bytes: tile.subarray(0, dice.one(lengths)) };
  }
  const bytes = tile.slice();
  const view = new DataView(bytes.buffer);
  for (let n = dice.roll(5); n >= 0; n--) {
    const value = dice.roll(2) === 0 ? dice.one(telling) : dice.roll(65536);
    const from = dice.roll(side * side);
    const to = Math.min(side * side, from + (dice.roll(3) === 0 ? dice.roll(side * side) : 1));
    for (let i = from; i < to; i++) view.setUint16(2 * i, value);
  }
  return { name, bytes };
}
