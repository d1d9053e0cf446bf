import type { LngLat } from '../domain/coordinates';
import { markName, type Mark } from '../domain/mark';
import { modes } from '../domain/mode';
import type { Plan, Segment } from '../domain/segment';
import type { Units } from '../wording/units';
import { grid, mapKey, northArrow, northText, scaleBar, type MapFrame } from './map-furniture';
import { MapLabels } from './map-labels';
import { modeStrokes } from './map-strokes';
import { el, type Markup, type MarkupElement } from './markup';
import { planPlane } from './plan-plane';
import { paperTextPx } from './sheet-ribbon';

type Px = readonly [x: number, y: number];
type XY = readonly [eastM: number, northM: number];

/** Beside the ribbon: as high as this, and as wide as the line wants it between two bounds. */
const front = { heightPx: 168, leastWidthPx: 190, mostWidthPx: 320 } as const;
/** A pocket’s width; with its heading, key and grid it stays on one page. */
const pocket = { widthPx: 344, leastHeightPx: 220, mostHeightPx: 400 } as const;
const edgePx = 26;

/** A map and how wide it is drawn. CSS pixels. */
export interface SheetMap {
  readonly drawing: MarkupElement;
  readonly widthPx: number;
}

/** The line seen from above in black and white: modes by stroke, grid, scale bar, north. No relief: that is the picture's. */
export function sheetMap(
  plan: Plan,
  marks: readonly Mark[],
  units: Units,
  place: 'front' | 'pocket' = 'front',
): SheetMap | null {
  const positions = plan.stations.map((station) => station.position);
  if (positions.length < 2) return null;
  const plane = planPlane(positions);
  const flat = positions.map((position) => plane.toXY(position));
  const frame = frameOf(flat, place);
  const toPx = ([x, y]: XY): Px => [
    round((x - frame.leftM) * frame.pxPerM),
    round(frame.heightPx - (y - frame.bottomM) * frame.pxPerM),
  ];
  const seen: Seen = { plan, pixels: flat.map(toPx), pxOf: (position) => toPx(plane.toXY(position)) };
  const drawing = el(
    'figure',
    { class: 'map' },
    picture(frame, layers(seen, marks, { frame, units, hasGrid: plane.gridName !== null })),
    place === 'front'
      ? []
      : mapKey(modes.filter((mode) => plan.segments.some((segment) => segment.mode === mode))),
    el('p', {}, northText(plane)),
  );
  return { drawing, widthPx: frame.widthPx };
}

/** The plan as the map sees it. */
interface Seen {
  readonly plan: Plan;
  /** The stations. */
  readonly pixels: readonly Px[];
  readonly pxOf: (position: LngLat) => Px;
}

const picture = ({ widthPx, heightPx }: MapFrame, drawn: readonly Markup[]): MarkupElement =>
  el(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${widthPx} ${heightPx}`,
      class: 'picture',
      width: widthPx,
      role: 'img',
      'aria-label': 'The line from above, modes by stroke',
      'font-size': paperTextPx,
      'font-family': 'inherit',
    },
    el('rect', {
      x: 0.5,
      y: 0.5,
      width: widthPx - 1,
      height: heightPx - 1,
      fill: '#fff',
      stroke: '#000',
    }),
    drawn,
  );

/** All that is drawn, from the lowest up. Whatever is placed first keeps its place: furniture, ends and marks before numbers. */
function layers(
  { plan, pixels, pxOf }: Seen,
  marks: readonly Mark[],
  { frame, units, hasGrid }: { readonly frame: MapFrame; readonly units: Units; readonly hasGrid: boolean },
): Markup[] {
  const labels = new MapLabels(frame.widthPx, frame.heightPx);
  const furniture = [...scaleBar(frame, units, labels), ...northArrow(frame, labels)];
  const ends = endSigns(pixels, labels);
  const signs = marks.flatMap((mark) => markSigns(mark, mark.positions.map(pxOf), labels));
  const numbers = plan.segments
    .toSorted((a, b) => b.lengthM - a.lengthM)
    .flatMap((segment) => numberLabel(segment, plan, pixels, labels));
  return [
    ...(hasGrid ? grid(frame, labels) : []),
    ...plan.segments.flatMap((segment) =>
      modeStrokes(segment.mode, pathOf(stretchOf(segment, plan, pixels))),
    ),
    ...directionArrows(pixels),
    ...plan.segments.flatMap(({ gatherings }) =>
      gatherings.map(({ position }) => gatheringSign(pxOf(position))),
    ),
    ...signs,
    ...numbers,
    ...ends,
    ...furniture,
  ];
}

const gatheringSign = ([x, y]: Px): Markup =>
  el('path', { d: `M${x - 5} ${y + 4}l5-10 5 10z`, fill: '#000', stroke: '#fff' });

function frameOf(flat: readonly XY[], place: 'front' | 'pocket'): MapFrame {
  const [west, east] = extent(flat.map(([x]) => x));
  const [south, north] = extent(flat.map(([, y]) => y));
  const [wideM, highM] = [Math.max(1, east - west), Math.max(1, north - south)];
  const within = (least: number, value: number, most: number) =>
    Math.round(Math.min(most, Math.max(least, value)));
  const widthPx =
    place === 'pocket'
      ? pocket.widthPx
      : within(
          front.leastWidthPx,
          (wideM / highM) * (front.heightPx - 2 * edgePx) + 2 * edgePx,
          front.mostWidthPx,
        );
  const heightPx =
    place === 'front'
      ? front.heightPx
      : within(
          pocket.leastHeightPx,
          (highM / wideM) * (widthPx - 2 * edgePx) + 2 * edgePx,
          pocket.mostHeightPx,
        );
  const pxPerM = Math.min((widthPx - 2 * edgePx) / wideM, (heightPx - 2 * edgePx) / highM);
  return {
    widthPx,
    heightPx,
    pxPerM,
    leftM: (west + east) / 2 - widthPx / 2 / pxPerM,
    bottomM: (south + north) / 2 - heightPx / 2 / pxPerM,
  };
}

const stretchOf = ({ fromM, toM }: Segment, plan: Plan, pixels: readonly Px[]): Px[] =>
  pixels.filter((_, i) => {
    const along = plan.stations[i]!.alongM;
    return along >= fromM - 0.5 && along <= toM + 0.5;
  });

function markSigns(mark: Mark, points: readonly Px[], labels: MapLabels): Markup[] {
  const [x, y] = points[Math.floor(points.length / 2)]!;
  if (!(x > 0 && x < labels.widthPx && y > 0 && y < labels.heightPx) || mark.kind === 'note') return [];
  const drawn =
    points.length > 1
      ? [el('path', { d: pathOf(points), fill: 'none', stroke: '#000', 'stroke-dasharray': '2 2' })]
      : [];
  const cross = `M${x - 4} ${y - 4}l8 8m0-8l-8 8`;
  return [
    ...drawn,
    el('path', { d: cross, stroke: '#fff', 'stroke-width': 5 }),
    el('path', { d: cross, stroke: '#000', 'stroke-width': 2 }),
    ...labels.place(markName[mark.kind], [
      { x: x + 9, y: y + 18, anchor: 'start' },
      { x: x - 9, y: y + 18, anchor: 'end' },
      { x: x + 9, y: y - 8, anchor: 'start' },
      { x: x - 9, y: y - 8, anchor: 'end' },
    ]),
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

/** A segment's number beside its middle, left or right of the direction of travel, where there is room. */
function numberLabel(
  { id, fromM, toM }: Segment,
  plan: Plan,
  pixels: readonly Px[],
  labels: MapLabels,
): Markup[] {
  const i = plan.stations.findIndex((station) => station.alongM >= (fromM + toM) / 2);
  if (i < 0) return [];
  const [px, before] = [pixels[i]!, pixels[Math.max(0, i - 3)]!];
  const turn = Math.atan2(px[1] - before[1], px[0] - before[0]);
  const aside = (awayPx: number) => ({
    x: round(px[0] + Math.sin(turn) * awayPx),
    y: round(px[1] - Math.cos(turn) * awayPx + 4.5),
    anchor: 'middle' as const,
  });
  return labels.place(String(id), [aside(17), aside(-17), aside(32), aside(-32)], 700);
}

function endSigns(pixels: readonly Px[], labels: MapLabels): Markup[] {
  const [first, last] = [pixels[0]!, pixels.at(-1)!];
  const beside = ([x, y]: Px) => [
    { x: x + 10, y: y + 5, anchor: 'start' as const },
    { x: x - 10, y: y + 5, anchor: 'end' as const },
    { x, y: y + 20, anchor: 'middle' as const },
    { x, y: y - 10, anchor: 'middle' as const },
  ];
  return [
    el('circle', { cx: first[0], cy: first[1], r: 5, fill: '#fff', stroke: '#000', 'stroke-width': 2 }),
    el('path', { d: `M${last[0] - 5} ${last[1] - 5}h10v10h-10z`, fill: '#000', stroke: '#fff' }),
    ...labels.place('start', beside(first)),
    ...labels.place('end', beside(last)),
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

function extent(values: readonly number[]): [least: number, most: number] {
  return values.reduce(
    ([least, most], value) => [Math.min(least, value), Math.max(most, value)],
    [Infinity, -Infinity],
  );
}

const round = (px: number) => Math.round(px * 10) / 10;
