import { inflateSync } from 'node:zlib';

/** A picture's pixels, RGBA. */
export interface Pixels {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly rgba: Uint8Array;
}

/**
 * A PNG as the browser writes it: 8 bits, RGB or RGBA, not interlaced.
 *
 * @source W3C, Portable Network Graphics (PNG) Specification, second edition, sections 5, 9.
 */
export function pixels(png: Uint8Array): Pixels {
  const view = new DataView(png.buffer, png.byteOffset, png.byteLength);
  const parts: Uint8Array[] = [];
  let [widthPx, heightPx, channels] = [0, 0, 0];
  for (let at = 8; at < png.length;) {
    const length = view.getUint32(at);
    const kind = String.fromCharCode(...png.subarray(at + 4, at + 8));
    if (kind === 'IHDR') {
      widthPx = view.getUint32(at + 8);
      heightPx = view.getUint32(at + 12);
      channels = png[at + 17] === 6 ? 4 : 3;
    }
    if (kind === 'IDAT') parts.push(png.subarray(at + 8, at + 8 + length));
    at += 12 + length;
  }
  const raw = inflateSync(Buffer.concat(parts));
  const stride = widthPx * channels;
  const lines = new Uint8Array(heightPx * stride);
  for (let row = 0; row < heightPx; row++) {
    const filter = raw[row * (stride + 1)] ?? 0;
    for (let i = 0; i < stride; i++) {
      const at = row * stride + i;
      const left = i >= channels ? (lines[at - channels] ?? 0) : 0;
      const up = row > 0 ? (lines[at - stride] ?? 0) : 0;
      const corner = row > 0 && i >= channels ? (lines[at - stride - channels] ?? 0) : 0;
      const guess = [0, left, up, (left + up) >> 1, paeth(left, up, corner)][filter] ?? 0;
      lines[at] = (raw[row * (stride + 1) + 1 + i] ?? 0) + guess;
    }
  }
  if (channels === 4) return { widthPx, heightPx, rgba: lines };
  const rgba = new Uint8Array(widthPx * heightPx * 4).fill(255);
  for (let i = 0; i < widthPx * heightPx; i++) rgba.set(lines.subarray(3 * i, 3 * i + 3), 4 * i);
  return { widthPx, heightPx, rgba };
}

function paeth(left: number, up: number, corner: number): number {
  const guess = left + up - corner;
  const [a, b, c] = [Math.abs(guess - left), Math.abs(guess - up), Math.abs(guess - corner)];
  return a <= b && a <= c ? left : b <= c ? up : corner;
}

/** Distinct colours: a blank map has a handful. */
export function colourCount({ rgba }: Pixels): number {
  const seen = new Set<number>();
  for (let i = 0; i < rgba.length; i += 4)
    seen.add(((rgba[i] ?? 0) << 16) | ((rgba[i + 1] ?? 0) << 8) | (rgba[i + 2] ?? 0));
  return seen.size;
}

/** Share of pixels within a distance of a colour, in each channel. */
export function shareOf({ rgba }: Pixels, [r, g, b]: readonly [number, number, number], within = 12): number {
  let count = 0;
  for (let i = 0; i < rgba.length; i += 4)
    if (
      Math.abs((rgba[i] ?? 0) - r) <= within &&
      Math.abs((rgba[i + 1] ?? 0) - g) <= within &&
      Math.abs((rgba[i + 2] ?? 0) - b) <= within
    )
      count++;
  return (4 * count) / rgba.length;
}
