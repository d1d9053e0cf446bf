import { mutated, type Dice } from './mutate';

/** Numbers that have broken readers before. */
const telling = [
  0,
  1,
  2,
  3,
  4,
  7,
  8,
  16,
  255,
  256,
  32767,
  32768,
  65535,
  65536,
  2 ** 24,
  2 ** 31 - 1,
  2 ** 31,
  2 ** 32 - 1,
];
const tags = [
  254, 256, 257, 258, 259, 262, 273, 277, 278, 279, 284, 317, 322, 323, 324, 325, 339, 33550, 33922, 34264,
  34735, 34736, 42112, 42113,
];

/** A file changed in the words of the format half of the time, else byte by byte. */
export function mutatedRaster(files: readonly Uint8Array[], dice: Dice): Uint8Array {
  let bytes: Uint8Array = dice.one(files).slice();
  if (dice.roll(3) === 0) return mutated(files, dice);
  const times = 1 + dice.roll(3);
  for (let n = 0; n < times; n++) changeField(bytes, dice);
  if (dice.roll(6) === 0) bytes = bytes.slice(0, dice.roll(bytes.length + 1));
  return bytes;
}

/** Another tag, type, count or value in one entry of the first directory; or another successor. */
function changeField(bytes: Uint8Array, dice: Dice): void {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const little = bytes[0] === 0x49;
  const isBig = view.byteLength > 8 && view.getUint16(2, little) === 43;
  const first = isBig ? Number(view.getBigUint64(8, little)) : view.getUint32(4, little);
  if (first + 8 > bytes.length) return;
  const count = view.getUint16(first + (isBig && !little ? 6 : 0), little);
  const entryBytes = isBig ? 20 : 12;
  const at = first + (isBig ? 8 : 2) + dice.roll(count + 1) * entryBytes;
  const value = dice.roll(3) === 0 ? dice.roll(bytes.length * 2) : dice.one(telling);
  const long = (offset: number) => {
    if (offset + 8 > bytes.length) return;
    if (isBig) view.setBigUint64(offset, BigInt(value), little);
    else view.setUint32(offset, value, little);
  };
  if (at + entryBytes > bytes.length) return long(bytes.length - 8);
  const what = dice.roll(6);
  if (what === 0) view.setUint16(at, dice.one(tags), little);
  else if (what === 1) view.setUint16(at + 2, dice.roll(20), little);
  else if (what === 2) long(at + 4);
  else if (what === 3) view.setUint16(at + (isBig ? 12 : 8), value & 0xffff, little);
  else long(at + (isBig ? 12 : 8));
}
