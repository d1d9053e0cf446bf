import type { Plan } from '../domain/segment';
import { digits, thin } from '../wording/numbers';
import { metresPerFoot, type Units } from '../wording/units';
import { distanceAxis } from './along-axis';
import { roundTicks } from './axis';
import { marksAlong } from './marks-along';
import { el, type Markup, type MarkupElement } from './markup';
import { modeCode } from './mode-pattern';
import { paperPatterns } from './paper-patterns';
import { profileColumns } from './profile-columns';
import { drawRibbon, type RibbonDrawing, type RibbonFrame } from './ribbon-drawing';

/** Ten points, the least that is printed. CSS pixels, 96 to the inch. */
export const paperTextPx = 13.4;

/** CSS pixels. */
export interface RibbonSize {
  readonly widthPx: number;
  /** Height of the elevations, and of the slopes below them. */
  readonly elevationPx: number;
  readonly slopePx: number;
}

/** Between elevations and slopes stand numbers and signs; below them the distances. */
const [topPx, signsPx, distancesPx] = [4, 38, 20];

export const ribbonHeightPx = ({ elevationPx, slopePx }: RibbonSize): number =>
  topPx + elevationPx + signsPx + slopePx + distancesPx;

function frameOf({ widthPx, elevationPx, slopePx }: RibbonSize): RibbonFrame {
  const basePx = topPx + elevationPx;
  return {
    leftPx: 56,
    rightPx: widthPx - 30,
    elevation: { topPx, basePx },
    lower: { topPx: basePx + signsPx, basePx: basePx + signsPx + slopePx },
  };
}

/** The ribbon in black and white, ready to print. */
export function sheetRibbon(plan: Plan, units: Units, prefix: string, size: RibbonSize): MarkupElement {
  const frame = frameOf(size);
  const axis = distanceAxis([0, plan.totals.lengthM], units, frame);
  const drawing = drawRibbon(plan, profileColumns(plan), axis.shown, axis.x, frame);
  const marks = marksAlong(plan, axis.x, frame.leftPx, frame.rightPx);
  return el(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${size.widthPx} ${ribbonHeightPx(size)}`,
      class: 'picture',
      role: 'img',
      'aria-label': 'Elevation, modes and design slope along the line',
      'font-size': paperTextPx,
      'font-family': 'inherit',
    },
    paperPatterns(prefix),
    heightLines(drawing, frame, units),
    elevations(drawing, frame, prefix),
    signs(marks, frame.elevation.basePx + 19),
    slopes(drawing, frame),
    distances(axis.ticks, frame),
    edges(frame),
  );
}

/** What is under the line, by mode; where the ground is not known, a pattern over the whole height. */
function elevations(drawing: RibbonDrawing, frame: RibbonFrame, prefix: string): Markup[] {
  const { topPx, basePx } = frame.elevation;
  return [
    ...drawing.gaps.map((gap) =>
      el('rect', {
        x: round(gap.fromPx),
        y: topPx,
        width: round(gap.toPx - gap.fromPx),
        height: basePx - topPx,
        fill: `url(#${prefix}-no-data)`,
      }),
    ),
    ...drawing.segments.flatMap((segment) => [
      el('path', { d: segment.area, fill: `url(#${prefix}-${segment.mode})` }),
      el('path', { d: segment.line, fill: 'none', stroke: '#000', 'stroke-width': 2 }),
      line(segment.toPx, topPx, segment.toPx, basePx + 18, 0.75),
      ...codeLabel(segment, frame),
    ]),
  ];
}

/** Pieces, gatherings and crossings, between elevations and slopes. */
const signs = ({ pieces, gatherings, crossings }: ReturnType<typeof marksAlong>, yPx: number): Markup[] => [
  ...pieces.map((px) => line(px, yPx + 1, px, yPx + 6, 1.2)),
  ...gatherings.map((px) => el('path', { d: `M${px - 4} ${yPx + 14}l4-9 4 9z`, fill: '#000' })),
  ...crossings.map((px) =>
    el('path', { d: `M${px - 2} ${yPx}v13m4-13v13`, stroke: '#000', 'stroke-width': 2 }),
  ),
];

/** Design slope with its spread, over the slopes at which the rules change. */
function slopes({ lower }: RibbonDrawing, { leftPx, rightPx, lower: { topPx } }: RibbonFrame): Markup[] {
  const { ticks, scale, guides } = lower;
  const yOf = (slopeDeg: number) => round(scale.toPx(slopeDeg));
  return [
    ...ticks.map((tick) => line(leftPx, yOf(tick), rightPx, yOf(tick), 0.4)),
    ...withRoom(ticks, (tick) => scale.toPx(tick)).map((tick) =>
      text(rightPx + 4, yOf(tick) + 4.5, `${tick}°`, 'start'),
    ),
    ...guides.map((guide) =>
      el('path', {
        d: `M${leftPx} ${yOf(guide)}H${rightPx}`,
        stroke: '#000',
        'stroke-width': 0.6,
        'stroke-dasharray': '5 4',
      }),
    ),
    text(leftPx - 6, topPx + 14, 'slope', 'end'),
    el('path', { d: lower.band, fill: '#000', 'fill-opacity': 0.22 }),
    el('path', { d: lower.line, fill: 'none', stroke: '#000', 'stroke-width': 1.4 }),
  ];
}

const distances = (
  ticks: ReturnType<typeof distanceAxis>['ticks'],
  { lower: { basePx } }: RibbonFrame,
): Markup[] =>
  ticks.flatMap((tick) => [
    line(round(tick.px), basePx, round(tick.px), basePx + 4, 0.75),
    text(round(tick.px), basePx + 17, tick.label, 'middle'),
  ]);

const edges = ({ leftPx, rightPx, elevation, lower }: RibbonFrame): Markup =>
  el('rect', {
    x: leftPx,
    y: elevation.topPx,
    width: rightPx - leftPx,
    height: lower.basePx - elevation.topPx,
    fill: 'none',
    stroke: '#000',
    'stroke-width': 0.75,
  });

function heightLines(drawing: RibbonDrawing, frame: RibbonFrame, units: Units): Markup[] {
  if (drawing.elevationRangeM === null) return [text(frame.leftPx + 8, 40, 'no ground data', 'start')];
  const unitM = units === 'metric' ? 1 : metresPerFoot;
  const { topPx, basePx } = frame.elevation;
  const [from, to] = [drawing.elevation.fromPx(basePx) / unitM, drawing.elevation.fromPx(topPx) / unitM];
  return roundTicks(from, to, Math.max(2, (basePx - topPx) / 33)).flatMap((value) => {
    const y = round(drawing.elevation.toPx(value * unitM));
    const label = `${digits(value)}${thin}${units === 'metric' ? 'm' : 'ft'}`;
    return [line(frame.leftPx, y, frame.rightPx, y, 0.4), text(frame.leftPx - 6, y + 4.5, label, 'end')];
  });
}

function codeLabel(segment: RibbonDrawing['segments'][number], frame: RibbonFrame): Markup[] {
  const widthPx = segment.toPx - segment.fromPx;
  if (widthPx < 16) return [];
  const words = widthPx < 44 ? String(segment.id) : `${segment.id} ${modeCode[segment.mode]}`;
  return [text(round((segment.fromPx + segment.toPx) / 2), frame.elevation.basePx + 14, words, 'middle')];
}

const round = (px: number) => Math.round(px * 10) / 10;

const line = (x1: number, y1: number, x2: number, y2: number, width: number) =>
  el('path', {
    d: `M${round(x1)} ${round(y1)}L${round(x2)} ${round(y2)}`,
    stroke: '#000',
    'stroke-width': width,
  });

const text = (x: number, y: number, words: string, anchor: 'start' | 'middle' | 'end') =>
  el('text', { x, y, 'text-anchor': anchor }, words);

/** Height of a label, with the space below it. */
const labelPx = 12;

/** Those of the values, from the first on, whose labels do not touch. */
function withRoom(values: readonly number[], toPx: (value: number) => number): number[] {
  const kept: number[] = [];
  for (const value of values) {
    const last = kept.at(-1);
    if (last === undefined || Math.abs(toPx(value) - toPx(last)) >= labelPx) kept.push(value);
  }
  return kept;
}
