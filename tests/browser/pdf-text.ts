import { inflateSync } from 'node:zlib';

/** Words that a PDF shows in one go. */
export interface ShownText {
  readonly text: string;
  /** From the page's top, points. */
  readonly downPt: number;
  readonly leftPt: number;
  readonly sizePt: number;
}

export interface PdfPage {
  readonly widthPt: number;
  readonly heightPt: number;
  readonly shown: readonly ShownText[];
  /** All of it, in the order in which it is drawn. */
  readonly text: string;
}

/**
 * The pages of a PDF as Chromium writes it, with their text: objects that are not packed, fonts of two-byte glyphs with a
 * table back to Unicode. No reader for others' files.
 *
 * @source ISO 32000-1:2008, 7.3 (objects), 8.4.4 (cm, q, Q), 9.4 (text), 9.10.3 (ToUnicode).
 */
export function pdfPages(pdf: Buffer): PdfPage[] {
  const objects = objectsOf(pdf);
  const pages = [...objects.values()].filter(({ head }) => /\/Type \/Page\b/.test(head));
  return pages.map(({ head }) => {
    const [, width = '', height = ''] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(head) ?? [];
    const fonts = new Map(
      [...(/\/Font <<([^>]*)>>/.exec(head)?.[1] ?? '').matchAll(/\/(F\d+) (\d+) 0 R/g)].map((found) => [
        found[1] ?? '',
        unicodeOf(objects, Number(found[2])),
      ]),
    );
    const contents = objects.get(Number(/\/Contents (\d+) 0 R/.exec(head)?.[1]))?.stream() ?? '';
    const shown = shownIn(contents, fonts, Number(height));
    return {
      widthPt: Number(width),
      heightPt: Number(height),
      shown,
      text: shown.map(({ text }) => text).join(''),
    };
  });
}

interface PdfObject {
  readonly head: string;
  stream(): string;
}

function objectsOf(pdf: Buffer): Map<number, PdfObject> {
  const text = pdf.toString('latin1');
  const objects = new Map<number, PdfObject>();
  for (const found of text.matchAll(/(?:^|\n)(\d+) 0 obj\n([\s\S]*?)(?:endobj|stream\r?\n)/g)) {
    const head = found[2] ?? '';
    const from = found.index + found[0].length;
    const length = Number(/\/Length (\d+)/.exec(head)?.[1]);
    objects.set(Number(found[1]), {
      head,
      stream: () => {
        const bytes = pdf.subarray(from, from + length);
        return (head.includes('/FlateDecode') ? inflateSync(bytes) : bytes).toString('latin1');
      },
    });
  }
  return objects;
}

type Glyphs = ReadonlyMap<number, string>;

function unicodeOf(objects: ReadonlyMap<number, PdfObject>, font: number): Glyphs {
  const table = Number(/\/ToUnicode (\d+) 0 R/.exec(objects.get(font)?.head ?? '')?.[1]);
  const map = objects.get(table)?.stream() ?? '';
  const glyphs = new Map<number, string>();
  const hex = (digits = '') => parseInt(digits, 16);
  const letters = (digits = '') =>
    String.fromCharCode(...(digits.match(/.{4}/g) ?? []).map((each) => parseInt(each, 16)));
  for (const [, block = ''] of map.matchAll(/beginbfchar\n([\s\S]*?)endbfchar/g))
    for (const [, code, to] of block.matchAll(/<(\w+)> <(\w+)>/g)) glyphs.set(hex(code), letters(to));
  for (const [, block = ''] of map.matchAll(/beginbfrange\n([\s\S]*?)endbfrange/g))
    for (const [, first, last, to] of block.matchAll(/<(\w+)> <(\w+)> <(\w+)>/g))
      for (let code = hex(first); code <= hex(last); code++)
        glyphs.set(code, String.fromCodePoint(hex(to) + code - hex(first)));
  return glyphs;
}

type Matrix = readonly [number, number, number, number, number, number];

const times = ([a, b, c, d, e, f]: Matrix, [p, q, r, s, t, u]: Matrix): Matrix => [
  a * p + b * r,
  a * q + b * s,
  c * p + d * r,
  c * q + d * s,
  e * p + f * r + t,
  e * q + f * s + u,
];

/** Runs of text, one for each BT … ET. */
function shownIn(contents: string, fonts: ReadonlyMap<string, Glyphs>, heightPt: number): ShownText[] {
  const shown: ShownText[] = [];
  const saved: Matrix[] = [];
  let now: Matrix = [1, 0, 0, 1, 0, 0];
  let [glyphs, sizePx, text]: [Glyphs | undefined, number, string] = [undefined, 0, ''];
  let place: Matrix = now;
  const numbers: string[] = [];
  for (const [word] of contents.matchAll(/<[0-9A-Fa-f]*>|\/\w+|[^\s<>/]+/g)) {
    const matrix = () => numbers.slice(-6).map(Number) as unknown as Matrix;
    if (word === 'q') saved.push(now);
    else if (word === 'Q') now = saved.pop() ?? now;
    else if (word === 'cm') now = times(matrix(), now);
    else if (word === 'BT') text = '';
    else if (word === 'Tf')
      [glyphs, sizePx] = [fonts.get(numbers.at(-2)?.slice(1) ?? ''), Number(numbers.at(-1))];
    else if (word === 'Tm') place = times(matrix(), now);
    else if (word === 'Tj')
      text += (numbers.at(-1)?.slice(1, -1).match(/.{4}/g) ?? [])
        .map((code) => glyphs?.get(parseInt(code, 16)) ?? '')
        .join('');
    else if (word === 'ET')
      shown.push({
        text,
        leftPt: place[4],
        downPt: heightPt - place[5],
        sizePt: sizePx * Math.hypot(place[2], place[3]),
      });
    numbers.push(word);
    if (numbers.length > 8) numbers.shift();
  }
  return shown;
}
