import { markName, type Mark } from '../domain/mark';
import { modes } from '../domain/mode';
import type { Plan } from '../domain/segment';
import type { Units } from '../wording/units';
import { grid, halo, mapKey, northArrow, scaleBar } from './map-furniture';
import { modeStrokes } from './map-strokes';
import { el, type Markup, type MarkupElement } from './markup';
import { planPlane } from './plan-plane';
import { paperTextPx, paperWidthPx } from './sheet-ribbon';

type Px = readonly [x: number, y: number];

const leastHeightPx = 200;
const mostHeightPx = 380;
const edgePx = 34;
const keyHeightPx = 26;

/** The line seen from above in black and white: modes by stroke, grid, scale bar, north. No relief: that is the picture's. */
export function sheetMap(plan: Plan, marks: readonly Mark[], units: Units): MarkupElement | null {
  const positions = plan.stations.map((station) => station.position);
  if (positions.length < 2) return null;
  const plane = planPlane(positions);
  const flat = positions.map((position) => plane.toXY(position));
  const [west, east] = extent(flat.map(([x]) => x));
  const [south, north] = extent(flat.map(([, y]) => y));
  const insideWidthPx = paperWidthPx - 2 * edgePx;
  const wantedPx = ((north - south) / Math.max(1, east - west)) * insideWidthPx + 2 * edgePx;
  const heightPx = Math.round(Math.min(mostHeightPx, Math.max(leastHeightPx, wantedPx)));
  const scale = Math.min(
    insideWidthPx / Math.max(1, east - west),
    (heightPx - 2 * edgePx) / Math.max(1, north - south),
  );
  const offsetX = (paperWidthPx - (east - west) * scale) / 2;
  const offsetY = (heightPx - (north - south) * scale) / 2;
  const toPx = ([x, y]: readonly [number, number]): Px => [
    round(offsetX + (x - west) * scale),
    round(heightPx - offsetY - (y - south) * scale),
  ];
  const pixels = flat.map(toPx);

  return el(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${paperWidthPx} ${heightPx + keyHeightPx}`,
      class: 'picture',
      role: 'img',
      'aria-label': 'The line from above, modes by stroke',
      'font-size': paperTextPx,
      'font-family': 'inherit',
    },
    el('rect', {
      x: 0.5,
      y: 0.5,
      width: paperWidthPx - 1,
      height: heightPx - 1,
      fill: '#fff',
      stroke: '#000',
    }),
    plane.gridName === null ? [] : grid({ west, south, scale, offsetX, offsetY, heightPx }),
    plan.segments.flatMap((segment) => {
      const inside = pixels.filter((_, i) => {
        const along = plan.stations[i]?.alongM ?? NaN;
        return along >= segment.fromM - 0.5 && along <= segment.toM + 0.5;
      });
      return modeStrokes(segment.mode, pathOf(inside));
    }),
    directionArrows(pixels),
    plan.segments.flatMap((segment) =>
      segment.gatherings.flatMap((gathering) => {
        const [x, y] = toPx(plane.toXY(gathering.position));
        return [el('path', { d: `M${x - 5} ${y + 4}l5-10 5 10z`, fill: '#000', stroke: '#fff' })];
      }),
    ),
    marks.flatMap((mark) => markSigns(mark, plane.toXY, toPx, heightPx)),
    plan.segments.flatMap((segment) =>
      numberLabel(segment.id, middlePx(plan, pixels, segment.fromM, segment.toM)),
    ),
    endLabels(pixels),
    scaleBar(scale, units, heightPx),
    northArrow(plane.gridName, heightPx),
    mapKey(
      modes.filter((mode) => plan.segments.some((segment) => segment.mode === mode)),
      heightPx + 16,
    ),
  );
}

function markSigns(
  mark: Mark,
  toXY: (position: Mark['positions'][number]) => readonly [number, number],
  toPx: (xy: readonly [number, number]) => Px,
  heightPx: number,
): Markup[] {
  const points = mark.positions.map((position) => toPx(toXY(position)));
  const [x, y] = points[Math.floor(points.length / 2)] ?? [NaN, NaN];
  if (!(x > 0 && x < paperWidthPx && y > 0 && y < heightPx) || mark.kind === 'note') return [];
  const extent =
    points.length > 1
      ? [el('path', { d: pathOf(points), fill: 'none', stroke: '#000', 'stroke-dasharray': '2 2' })]
      : [];
  const side = x > paperWidthPx - 150 ? ('end' as const) : ('start' as const);
  return [
    ...extent,
    el('path', { d: `M${x - 4} ${y - 4}l8 8m0-8l-8 8`, stroke: '#fff', 'stroke-width': 5 }),
    el('path', { d: `M${x - 4} ${y - 4}l8 8m0-8l-8 8`, stroke: '#000', 'stroke-width': 2 }),
    halo(side === 'start' ? x + 9 : x - 9, y + 18, markName[mark.kind], side),
  ];
}

/** Arrowheads along the line, in the direction of travel. */
function directionArrows(pixels: readonly Px[]): Markup[] {
  const arrows: Markup[] = [];
  let sincePx = 60;
  pixels.forEach(([x, y], i) => {
    const [x0, y0] = pixels[i - 1] ?? [x, y];
    sincePx += Math.hypot(x - x0, y - y0);
    if (sincePx < 120 || (x === x0 && y === y0)) return;
    sincePx = 0;
    const turn = round((Math.atan2(y - y0, x - x0) * 180) / Math.PI);
    arrows.push(
      el('path', {
        d: 'M-5-7 7 0-5 7-2 0z',
        transform: `translate(${x} ${y}) rotate(${turn})`,
        fill: '#000',
        stroke: '#fff',
      }),
    );
  });
  return arrows;
}

/** A segment's number beside its middle, left of the direction of travel. */
function numberLabel(id: number, at: { readonly px: Px; readonly turnRad: number } | null): Markup[] {
  if (at === null) return [];
  const x = round(at.px[0] + Math.sin(at.turnRad) * 17);
  const y = round(at.px[1] - Math.cos(at.turnRad) * 17);
  return [halo(x, y + 4.5, String(id), 'middle', 700)];
}

function middlePx(
  plan: Plan,
  pixels: readonly Px[],
  fromM: number,
  toM: number,
): { readonly px: Px; readonly turnRad: number } | null {
  const i = plan.stations.findIndex((station) => station.alongM >= (fromM + toM) / 2);
  const [px, before] = [pixels[i], pixels[Math.max(0, i - 3)]];
  if (!px || !before) return null;
  return { px, turnRad: Math.atan2(px[1] - before[1], px[0] - before[0]) };
}

function endLabels(pixels: readonly Px[]): Markup[] {
  const [first, last] = [pixels[0], pixels.at(-1)];
  if (!first || !last) return [];
  return [
    el('circle', { cx: first[0], cy: first[1], r: 5, fill: '#fff', stroke: '#000', 'stroke-width': 2 }),
    halo(first[0] + 10, first[1] + 5, 'start', 'start'),
    el('path', { d: `M${last[0] - 5} ${last[1] - 5}h10v10h-10z`, fill: '#000', stroke: '#fff' }),
    halo(last[0] + 10, last[1] + 5, 'end', 'start'),
  ];
}

/** A path that leaves out points nearer than a pixel and a half to the one before. */
function pathOf(points: readonly Px[]): string {
  let last: Px | undefined;
  const kept = points.filter((point, i) => {
    const isKept =
      last === undefined ||
      i === points.length - 1 ||
      Math.hypot(point[0] - last[0], point[1] - last[1]) >= 1.5;
    if (isKept) last = point;
    return isKept;
  });
  return kept.length === 0 ? '' : `M${kept.map(([x, y]) => `${x} ${y}`).join('L')}`;
}

function extent(values: readonly number[]): [number, number] {
  let [least, most] = [Infinity, -Infinity];
  for (const value of values) {
    if (Number.isNaN(value)) continue;
    least = Math.min(least, value);
    most = Math.max(most, value);
  }
  return [least, most];
}

const round = (px: number) => Math.round(px * 10) / 10;
