/** Numbers that look random and are the same every time: mulberry32, 32 bits of state. */
export class Dice {
  constructor(private state: number) {}

  /** 0 <= roll < sides, whole. */
  roll(sides: number): number {
    this.state = (this.state + 0x6d2b79f5) | 0;
    let t = Math.imul(this.state ^ (this.state >>> 15), 1 | this.state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return Math.floor((((t ^ (t >>> 14)) >>> 0) / 2 ** 32) * sides);
  }

  one<T>(items: readonly T[]): T {
    const item = items[this.roll(items.length)];
    if (item === undefined) throw new RangeError('nothing to choose from');
    return item;
  }
}

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);

/** Pieces that have broken readers before. */
const tokens = [
  ...[
    '\0',
    '\ufffe',
    '\ud83c',
    '&nbsp;',
    '&#0;',
    '&lt;',
    ']]>',
    '<!--',
    '-->',
    '<![CDATA[',
    '<?x?>',
    '<!DOCTYPE x>',
  ],
  ...[
    '180',
    '-180',
    '181',
    '360',
    '91',
    '-0',
    '1e999',
    'NaN',
    'Infinity',
    '0x1F',
    '60,5',
    '60.5N',
    '٣',
    '1 234',
    '+5',
    '.5',
    '5.',
  ],
  ...[
    'null',
    'true',
    '""',
    '[]',
    '{}',
    '{"__proto__":1}',
    '"__proto__":',
    '"constructor":',
    '"name":',
    ',',
    ':',
    '\\u0000',
    '\\',
  ],
  ...[
    'lat="',
    'lon="',
    '<ele>',
    '</ele>',
    '</trkpt>',
    '<trkpt lat="1" lon="2"/>',
    '</trkseg><trkseg>',
    '<name>',
    'xmlns="x"',
    'xmlns:g="x"',
  ],
  ...[
    '<coordinates>',
    '7,46,1',
    '</LineString>',
    '"coordinates":',
    '"type":',
    '2031-02-30T00:00:00Z',
    '24:00:00',
  ],
].map(encode);

type Change = (bytes: Uint8Array, dice: Dice, others: readonly Uint8Array[]) => Uint8Array;

const splice = (bytes: Uint8Array, at: number, removed: number, added: Uint8Array): Uint8Array => {
  const out = new Uint8Array(bytes.length - removed + added.length);
  out.set(bytes.subarray(0, at));
  out.set(added, at);
  out.set(bytes.subarray(at + removed), at + added.length);
  return out;
};

const span = (bytes: Uint8Array, dice: Dice, most: number): [at: number, length: number] => {
  const at = dice.roll(bytes.length + 1);
  return [at, Math.min(dice.roll(most) + 1, bytes.length - at)];
};

const changes: readonly Change[] = [
  (bytes, dice) => {
    const out = bytes.slice();
    const at = dice.roll(bytes.length);
    out[at] = (out[at] ?? 0) ^ (1 << dice.roll(8));
    return out;
  },
  (bytes, dice) => splice(bytes, dice.roll(bytes.length + 1), 0, Uint8Array.of(dice.roll(256))),
  (bytes, dice) => splice(bytes, ...span(bytes, dice, 12), new Uint8Array(0)),
  (bytes, dice) => splice(bytes, ...span(bytes, dice, 400), new Uint8Array(0)),
  (bytes, dice) => {
    const [at, length] = span(bytes, dice, 200);
    return splice(bytes, dice.roll(bytes.length + 1), 0, bytes.slice(at, at + length));
  },
  (bytes, dice) => splice(bytes, dice.roll(bytes.length + 1), 0, dice.one(tokens)),
  (bytes, dice) => splice(bytes, ...span(bytes, dice, 8), dice.one(tokens)),
  changeDigit,
  changeDigit,
  replaceNumber,
  replaceNumber,
  (bytes, dice) => bytes.slice(0, dice.roll(bytes.length + 1)),
  (bytes, dice, others) => {
    const other = dice.one(others);
    const [at, length] = span(other, dice, 300);
    return splice(bytes, dice.roll(bytes.length + 1), 0, other.slice(at, at + length));
  },
];

const isDigit = (byte: number | undefined): boolean => byte !== undefined && byte >= 0x30 && byte <= 0x39;

/** Another figure in the place of one: the file stays whole and says something else. */
function changeDigit(bytes: Uint8Array, dice: Dice): Uint8Array {
  const at = digitFrom(bytes, dice.roll(bytes.length));
  return at < 0 ? bytes : splice(bytes, at, 1, Uint8Array.of(0x30 + dice.roll(10)));
}

function replaceNumber(bytes: Uint8Array, dice: Dice): Uint8Array {
  const at = digitFrom(bytes, dice.roll(bytes.length));
  if (at < 0) return bytes;
  let end = at;
  while (isDigit(bytes[end]) || bytes[end] === 0x2e) end += 1;
  return splice(bytes, at, end - at, dice.one(tokens));
}

function digitFrom(bytes: Uint8Array, from: number): number {
  for (let at = from; at < bytes.length; at++) if (isDigit(bytes[at])) return at;
  return -1;
}

/** One of the files given, changed in one to four places. */
export function mutated(files: readonly Uint8Array[], dice: Dice): Uint8Array {
  let bytes = dice.one(files);
  const times = dice.roll(2) === 0 ? 1 : 1 + dice.roll(4);
  for (let n = times; n > 0 && bytes.length > 0; n--) bytes = dice.one(changes)(bytes, dice, files);
  return bytes;
}
