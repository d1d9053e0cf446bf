import { modeName, type Mode } from '../domain/mode';
import { lengthText } from '../wording/numbers';
import { metresPerFoot, metresPerMile, type Units } from '../wording/units';
import { modeStrokes } from './map-strokes';
import { el, type Markup } from './markup';
import { paperWidthPx } from './sheet-ribbon';

interface GridFrame {
  readonly west: number;
  readonly south: number;
  readonly scale: number;
  readonly offsetX: number;
  readonly offsetY: number;
  readonly heightPx: number;
}

/** Grid lines at round metres, labelled with their full metres at the edge. */
export function grid({ west, south, scale, offsetX, offsetY, heightPx }: GridFrame): Markup[] {
  const stepM =
    [100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000].find((m) => m * scale >= 80) ?? 100_000;
  const lines: Markup[] = [];
  const leftM = west - offsetX / scale;
  for (let m = Math.ceil(leftM / stepM) * stepM; (m - leftM) * scale < paperWidthPx; m += stepM) {
    const x = round((m - leftM) * scale);
    lines.push(el('path', { d: `M${x} 0V${heightPx}`, stroke: '#000', 'stroke-width': 0.4 }));
    if (x > 40 && x < paperWidthPx - 130) lines.push(halo(x + 3, 14, `${m} E`, 'start'));
  }
  const bottomM = south - offsetY / scale;
  for (let m = Math.ceil(bottomM / stepM) * stepM; (m - bottomM) * scale < heightPx; m += stepM) {
    const y = round(heightPx - (m - bottomM) * scale);
    lines.push(el('path', { d: `M0 ${y}H${paperWidthPx}`, stroke: '#000', 'stroke-width': 0.4 }));
    if (y > 34 && y < heightPx - 34) lines.push(halo(4, y - 3, `${m} N`, 'start'));
  }
  return lines;
}

export function scaleBar(pxPerM: number, units: Units, heightPx: number): Markup[] {
  const roundM =
    units === 'metric'
      ? [10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000]
      : [50, 100, 200, 500, 1000]
          .map((ft) => ft * metresPerFoot)
          .concat([0.5, 1, 2, 5, 10, 20].map((mi) => mi * metresPerMile));
  const barM = roundM.findLast((m) => m * pxPerM <= 190) ?? roundM[0] ?? 10;
  const widthPx = round(barM * pxPerM);
  const y = heightPx - 12;
  return [
    el('rect', { x: 6, y: y - 22, width: widthPx + 12, height: 30, fill: '#fff' }),
    el('path', {
      d: `M12 ${y - 5}v5h${widthPx}v-5M${12 + widthPx / 2} ${y}v-3`,
      fill: 'none',
      stroke: '#000',
      'stroke-width': 1.6,
    }),
    el('text', { x: 12 + widthPx / 2, y: y - 7, 'text-anchor': 'middle' }, lengthText(barM, units)),
  ];
}

export function northArrow(gridName: string | null, heightPx: number): Markup[] {
  const x = paperWidthPx - 22;
  const words = gridName === null ? 'true north up' : `${gridName}, grid north up`;
  return [
    el('rect', { x: x - 12, y: 4, width: 30, height: 44, fill: '#fff' }),
    el('path', { d: `M${x} 6l7 22-7-5-7 5z`, fill: '#000' }),
    el('text', { x, y: 44, 'text-anchor': 'middle' }, 'N'),
    halo(paperWidthPx - 8, heightPx - 8, words, 'end'),
  ];
}

/** What the strokes mean: a sample of each mode that occurs. */
export function mapKey(present: readonly Mode[], y: number): Markup[] {
  const letterPx = 6.2;
  const samplePx = 22;
  let x = 0;
  return present.flatMap((mode) => {
    const words = modeName[mode];
    const at = Math.round(x);
    x += samplePx + 5 + words.length * letterPx + 8;
    return [
      ...modeStrokes(mode, `M${at} ${y - 4}h${samplePx}`),
      el('text', { x: at + samplePx + 5, y, textLength: Math.round(words.length * letterPx) }, words),
    ];
  });
}

/** Words with a white rim, readable on lines. */
export const halo = (x: number, y: number, words: string, anchor: 'start' | 'middle' | 'end', weight = 400) =>
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

const round = (px: number) => Math.round(px * 10) / 10;
