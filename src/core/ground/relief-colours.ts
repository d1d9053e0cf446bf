import { pixelKind, type ReliefPixels } from './relief-sample';
import type { SlopePixels } from './slope-tint';

export type Rgb = readonly [red: number, green: number, blue: number];

/** Inks of the relief: shadow is laid over whatever lies beneath it, light is paper left showing a little brighter. */
export interface ReliefInks {
  readonly shadow: Rgb;
  readonly light: Rgb;
  readonly hatch: Rgb;
  /** How much of the light's colour level ground has: 0 on paper, which is bright already. */
  readonly levelLight: number;
}

/** Judgement: cool shadow, warm light, soft enough for a line and contours to stand out on. */
export const paperInks: ReliefInks = {
  shadow: [38, 50, 72],
  light: [255, 252, 240],
  hatch: [96, 78, 70],
  levelLight: 0,
};

/** On black paper only light can be drawn, and only red: shadow is what gets none of it. */
export const nightInks: ReliefInks = {
  shadow: [0, 0, 0],
  light: [214, 66, 40],
  hatch: [184, 64, 42],
  levelLight: 0.26,
};

/** Light from the upper left, as relief is read by habit: azimuth 315, 45 degrees high. */
const lightE = Math.cos((45 * Math.PI) / 180) * Math.sin((315 * Math.PI) / 180);
const lightN = Math.cos((45 * Math.PI) / 180) * Math.cos((315 * Math.PI) / 180);
const lightUp = Math.sin((45 * Math.PI) / 180);

/** Share of light a slope gets, 0 to 1; level ground gets 0.707 (Lambert's law). */
export function lightOn(gradE: number, gradN: number): number {
  const facing = lightUp - gradE * lightE - gradN * lightN;
  return Math.max(0, facing / Math.sqrt(1 + gradE * gradE + gradN * gradN));
}

/** Judgement: what shadow counts, and what steepness alone adds, so that slopes in full light keep their shape. */
const shadowWeight = 0.6;
const steepWeight = 0.5;
const deepestInk = 0.72;

/** How much ink a slope gets; negative: how much light. 0 on level ground. */
function inkOn(gradE: number, gradN: number): number {
  const cos = 1 / Math.sqrt(1 + gradE * gradE + gradN * gradN);
  return shadowWeight * (1 - lightOn(gradE, gradN) / lightUp) + steepWeight * (1 - cos);
}

/** Shaded relief as RGBA, not premultiplied. Holes and the outside of the edge are hatched, the rest is clear. */
export function shadePixels(pixels: ReliefPixels, inks: ReliefInks): Uint8ClampedArray<ArrayBuffer> {
  const { sizePx, kinds, gradE, gradN } = pixels;
  const rgba = new Uint8ClampedArray(4 * sizePx * sizePx);
  for (let i = 0; i < kinds.length; i++) {
    const kind = kinds[i]!;
    if (kind === pixelKind.nothing) continue;
    if (kind === pixelKind.ground) {
      const ink = inkOn(gradE[i]!, gradN[i]!);
      if (inks.levelLight > 0) put(rgba, i, inks.light, inks.levelLight * Math.max(0, 1 - ink / deepestInk));
      else if (ink >= 0) put(rgba, i, inks.shadow, Math.min(ink, deepestInk));
      else put(rgba, i, inks.light, Math.min(1, -3 * ink));
    } else {
      const isLine = (((i % sizePx) + Math.floor(i / sizePx)) & 7) < 2;
      put(rgba, i, inks.hatch, isLine ? 0.45 : kind === pixelKind.hole ? 0.1 : 0.05);
    }
  }
  return rgba;
}

/** Slope from which the tint shows, and where it ends, degrees. */
export const tintFromDeg = 15;
export const tintToDeg = 60;

/**
 * One continuous ramp, even in lightness and safe for the usual colour-vision deficiencies: six equidistant colours of
 * cividis, light to dark.
 *
 * @source J.R. Nunez, C.R. Anderton and R.S. Renslow, "Optimizing colormaps with consideration for color vision
 * deficiency", PLoS ONE 13 (2018) e0199239.
 */
const ramp: readonly Rgb[] = [
  [254, 232, 56],
  [200, 184, 102],
  [148, 142, 119],
  [102, 105, 112],
  [53, 69, 108],
  [0, 34, 78],
];

/** Colour of a slope, and how much of it shows: nothing on gentle ground, all of it 10 degrees on. */
export function slopeTint(slopeDeg: number): readonly [...Rgb, alpha: number] {
  const at =
    Math.max(0, Math.min(1, (slopeDeg - tintFromDeg) / (tintToDeg - tintFromDeg))) * (ramp.length - 1);
  const k = Math.min(ramp.length - 2, Math.floor(at));
  const [from, to] = [ramp[k]!, ramp[k + 1]!];
  const mix = (channel: 0 | 1 | 2): number =>
    Math.round(from[channel] + (to[channel] - from[channel]) * (at - k));
  return [mix(0), mix(1), mix(2), Math.max(0, Math.min(1, (slopeDeg - tintFromDeg) / 10))];
}

/** Slope tint as RGBA, not premultiplied; clear where no slope is known. */
export function tintPixels({ sizePx, slopesDeg }: SlopePixels): Uint8ClampedArray<ArrayBuffer> {
  const rgba = new Uint8ClampedArray(4 * sizePx * sizePx);
  for (let i = 0; i < slopesDeg.length; i++) {
    if (Number.isNaN(slopesDeg[i]!)) continue;
    const [red, green, blue, alpha] = slopeTint(slopesDeg[i]!);
    put(rgba, i, [red, green, blue], alpha);
  }
  return rgba;
}

function put(rgba: Uint8ClampedArray, i: number, [red, green, blue]: Rgb, alpha: number): void {
  rgba[4 * i] = red;
  rgba[4 * i + 1] = green;
  rgba[4 * i + 2] = blue;
  rgba[4 * i + 3] = 255 * alpha;
}
