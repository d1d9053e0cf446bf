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
  const { elevation, lower } = frame;
  const marks = marksAlong(plan, axis.x, frame.leftPx, frame.rightPx);
  const markTopPx = elevation.basePx + 19;
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
    drawing.gaps.map((gap) =>
      el('rect', {
        x: round(gap.fromPx),
        y: elevation.topPx,
        width: round(gap.toPx - gap.fromPx),
        height: elevation.basePx - elevation.topPx,
        fill: `url(#${prefix}-no-data)`,
      }),
    ),
    drawing.segments.flatMap((segment) => [
      el('path', { d: segment.area, fill: `url(#${prefix}-${segment.mode})` }),
      el('path', { d: segment.line, fill: 'none', stroke: '#000', 'stroke-width': 2 }),
      line(segment.toPx, elevation.topPx, segment.toPx, elevation.basePx + 18, 0.75),
      ...codeLabel(segment, frame),
    ]),
    marks.pieces.map((px) => line(px, markTopPx + 1, px, markTopPx + 6, 1.2)),
    marks.gatherings.map((px) => el('path', { d: `M${px - 4} ${markTopPx + 14}l4-9 4 9z`, fill: '#000' })),
    marks.crossings.map((px) =>
      el('path', { d: `M${px - 2} ${markTopPx}v13m4-13v13`, stroke: '#000', 'stroke-width': 2 }),
    ),
    drawing.lower.ticks.map((tick) => {
      const y = round(drawing.lower.scale.toPx(tick));
      return line(frame.leftPx, y, frame.rightPx, y, 0.4);
    }),
    withRoom(drawing.lower.ticks, (tick) => drawing.lower.scale.toPx(tick)).map((tick) =>
      text(frame.rightPx + 4, round(drawing.lower.scale.toPx(tick)) + 4.5, `${tick}°`, 'start'),
    ),
    drawing.lower.guides.map((guide) => {
      const y = round(drawing.lower.scale.toPx(guide));
      return el('path', {
        d: `M${frame.leftPx} ${y}H${frame.rightPx}`,
        stroke: '#000',
        'stroke-width': 0.6,
        'stroke-dasharray': '5 4',
      });
    }),
    text(frame.leftPx - 6, lower.topPx + 14, 'slope', 'end'),
    el('path', { d: drawing.lower.band, fill: '#000', 'fill-opacity': 0.22 }),
    el('path', { d: drawing.lower.line, fill: 'none', stroke: '#000', 'stroke-width': 1.4 }),
    axis.ticks.flatMap((tick) => [
      line(round(tick.px), lower.basePx, round(tick.px), lower.basePx + 4, 0.75),
      text(round(tick.px), lower.basePx + 17, tick.label, 'middle'),
    ]),
    el('rect', {
      x: frame.leftPx,
      y: elevation.topPx,
      width: frame.rightPx - frame.leftPx,
      height: lower.basePx - elevation.topPx,
      fill: 'none',
      stroke: '#000',
      'stroke-width': 0.75,
    }),
  );
}

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
