import type { Plan } from '../../core/domain/segment';
import type { AlongAxis } from '../../core/sheet/along-axis';
import { roundTicks } from '../../core/sheet/axis';
import type { RibbonDrawing, RibbonFrame } from '../../core/sheet/ribbon-drawing';
import { digits, thin } from '../../core/wording/numbers';
import { metresPerFoot, type Units } from '../../core/wording/units';

/** Labels of the axis; those and the lane of codes and ticks. */
const axisPx = 24;
const belowPx = axisPx + 42;

/** Where the lanes lie in a picture of this size; the lower lane stays readable in a low window. */
export function ribbonFrame(widthPx: number, heightPx: number, hasReference: boolean): RibbonFrame {
  const lanePx = Math.max(30, Math.round(heightPx * 0.2));
  return {
    leftPx: 58,
    rightPx: Math.max(160, widthPx - 40),
    elevation: { topPx: hasReference ? 38 : 24, basePx: heightPx - belowPx - lanePx },
    lower: { topPx: heightPx - axisPx - lanePx, basePx: heightPx - axisPx },
  };
}

/** Heights at the side, in round numbers of the chosen unit. */
export function heightTicks(
  { elevation, elevationRangeM }: RibbonDrawing,
  frame: RibbonFrame,
  units: Units,
): readonly { readonly px: number; readonly label: string }[] {
  if (elevationRangeM === null) return [];
  const [unitM, unit] = units === 'metric' ? [1, 'm'] : [metresPerFoot, 'ft'];
  const { topPx, basePx } = frame.elevation;
  const [from, to] = [elevation.fromPx(basePx), elevation.fromPx(topPx)];
  return roundTicks(from / unitM, to / unitM, 4).map((value) => ({
    px: elevation.toPx(value * unitM),
    label: `${digits(value)}${thin}${unit}`,
  }));
}

/** The modes of a kept plan, as far as they are in view. */
export const referenceStrip = (reference: Plan | null, { shown: [fromM, toM], x }: AlongAxis) =>
  (reference?.segments ?? [])
    .filter((segment) => segment.toM > fromM && segment.fromM < toM)
    .map((segment) => ({
      fromPx: x.toPx(Math.max(fromM, segment.fromM)),
      toPx: x.toPx(Math.min(toM, segment.toM)),
      mode: segment.mode,
    }));
