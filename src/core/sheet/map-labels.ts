import { el, type Markup } from './markup';
import { paperTextPx } from './sheet-ribbon';

export type Anchor = 'start' | 'middle' | 'end';

interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Widest usual letter, as a share of its height. */
const letterWidth = 0.56;

const boxOf = (x: number, y: number, words: string, anchor: Anchor): Box => {
  const widthPx = words.length * letterWidth * paperTextPx;
  const left = anchor === 'start' ? x : anchor === 'end' ? x - widthPx : x - widthPx / 2;
  return { left, top: y - 0.8 * paperTextPx, right: left + widthPx, bottom: y + 0.2 * paperTextPx };
};

const meet = (a: Box, b: Box) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Words on a map, none over another: what comes first keeps its place, what finds none is left out. */
export class MapLabels {
  readonly #taken: Box[] = [];

  constructor(
    readonly widthPx: number,
    readonly heightPx: number,
  ) {}

  /** Room that no word may take. */
  keepFree(left: number, top: number, right: number, bottom: number): void {
    this.#taken.push({ left, top, right, bottom });
  }

  /** The words at the first of these places that is free and inside; nothing if there is none. */
  place(
    words: string,
    places: readonly { readonly x: number; readonly y: number; readonly anchor: Anchor }[],
    weight = 400,
  ): Markup[] {
    for (const { x, y, anchor } of places) {
      const box = boxOf(x, y, words, anchor);
      const isInside =
        box.left >= 0 && box.top >= 0 && box.right <= this.widthPx && box.bottom <= this.heightPx;
      if (!isInside || this.#taken.some((other) => meet(box, other))) continue;
      this.#taken.push(box);
      return [halo(x, y, words, anchor, weight)];
    }
    return [];
  }
}

/** Words with a white rim, readable on lines. */
export const halo = (x: number, y: number, words: string, anchor: Anchor, weight = 400) =>
  el(
    'text',
    {
      x,
      y,
      'text-anchor': anchor,
      'font-weight': weight,
      stroke: '#fff',
      'stroke-width': 4,
      'paint-order': 'stroke',
    },
    words,
  );
