import { modeName, type Mode } from '../domain/mode';
import { digits, lengthText } from '../wording/numbers';
import { metresPerFoot, metresPerMile, type Units } from '../wording/units';
import { MapLabels } from './map-labels';
import { modeStrokes } from './map-strokes';
import { el, type Markup, type MarkupElement } from './markup';
import type { PlanPlane } from './plan-plane';

/** How flat metres lie on the map's pixels. */
export interface MapFrame {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly pxPerM: number;
  /** Metres at the lower left corner. */
  readonly leftM: number;
  readonly bottomM: number;
}

/** Grid lines at round metres, labelled with their full metres at the edge. */
export function grid({ widthPx, heightPx, pxPerM, leftM, bottomM }: MapFrame, labels: MapLabels): Markup[] {
  const stepM =
    [100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000].find((m) => m * pxPerM >= 36) ?? 100_000;
  const lines: Markup[] = [];
  const words: Markup[] = [];
  for (let m = Math.ceil(leftM / stepM) * stepM; (m - leftM) * pxPerM < widthPx; m += stepM) {
    const x = round((m - leftM) * pxPerM);
    lines.push(el('path', { d: `M${x} 0V${heightPx}`, stroke: '#000', 'stroke-width': 0.4 }));
    words.push(
      ...labels.place(`${m} E`, [
        { x: x + 3, y: 14, anchor: 'start' },
        { x: x + 3, y: heightPx - 5, anchor: 'start' },
      ]),
    );
  }
  for (let m = Math.ceil(bottomM / stepM) * stepM; (m - bottomM) * pxPerM < heightPx; m += stepM) {
    const y = round(heightPx - (m - bottomM) * pxPerM);
    lines.push(el('path', { d: `M0 ${y}H${widthPx}`, stroke: '#000', 'stroke-width': 0.4 }));
    words.push(
      ...labels.place(`${m} N`, [
        { x: 4, y: y - 3, anchor: 'start' },
        { x: widthPx - 4, y: y - 3, anchor: 'end' },
      ]),
    );
  }
  return [...lines, ...words];
}

export function scaleBar({ pxPerM, widthPx, heightPx }: MapFrame, units: Units, labels: MapLabels): Markup[] {
  const roundM =
    units === 'metric'
      ? [10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000]
      : [50, 100, 200, 500, 1000]
          .map((ft) => ft * metresPerFoot)
          .concat([0.5, 1, 2, 5, 10, 20].map((mi) => mi * metresPerMile));
  const barM = roundM.findLast((m) => m * pxPerM <= widthPx / 3) ?? roundM[0]!;
  const barPx = round(barM * pxPerM);
  const y = heightPx - 12;
  labels.keepFree(0, y - 22, Math.max(barPx + 24, 80), heightPx);
  return [
    el('rect', { x: 6, y: y - 22, width: Math.max(barPx + 12, 66), height: 30, fill: '#fff' }),
    el('path', {
      d: `M12 ${y - 5}v5h${barPx}v-5M${12 + barPx / 2} ${y}v-3`,
      fill: 'none',
      stroke: '#000',
      'stroke-width': 1.6,
    }),
    el('text', { x: 12, y: y - 7 }, lengthText(barM, units)),
  ];
}

export function northArrow({ widthPx }: MapFrame, labels: MapLabels): Markup[] {
  const x = widthPx - 22;
  labels.keepFree(x - 14, 0, widthPx, 50);
  return [
    el('rect', { x: x - 12, y: 4, width: 30, height: 44, fill: '#fff' }),
    el('path', { d: `M${x} 6l7 22-7-5-7 5z`, fill: '#000' }),
    el('text', { x, y: 44, 'text-anchor': 'middle' }, 'N'),
  ];
}

/** Which north is up, and how far it is from the other. */
export function northText({ gridName, gridNorthDeg }: PlanPlane): string {
  if (gridName === null || gridNorthDeg === null)
    return 'True north up; the line lies in no single grid zone.';
  const aside = digits(Math.abs(gridNorthDeg), 1);
  const side = gridNorthDeg < 0 ? 'west' : 'east';
  const off = aside === '0.0' ? 'which is true north here' : `${aside}° ${side} of true north`;
  return `${gridName}, WGS 84, metres; grid north up, ${off}.`;
}

/** What the strokes and signs mean, in a line of words. */
export const mapKey = (present: readonly Mode[]): MarkupElement =>
  el(
    'p',
    { class: 'key' },
    present.flatMap((mode) => [
      el(
        'svg',
        { class: 'stroke', viewBox: '0 0 26 12', 'aria-hidden': 'true' },
        modeStrokes(mode, 'M2 6h22'),
      ),
      `${modeName[mode]}  `,
    ]),
    '○ start  ■ end  ▲ gathering or stance  × mark',
  );

const round = (px: number) => Math.round(px * 10) / 10;
