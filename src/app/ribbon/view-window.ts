import type { ViewWindow } from '../../core/sheet/along-axis';

/** Closer than this nothing more can be read off the ground. */
const leastWidthM = 50;

/** Moves and narrows a window so that it lies on the line. */
export function clampWindow([fromM, toM]: ViewWindow, lengthM: number): ViewWindow {
  const widthM = Math.min(lengthM, Math.max(Math.min(leastWidthM, lengthM), toM - fromM));
  const start = Math.min(Math.max(0, fromM), lengthM - widthM);
  return [start, start + widthM];
}

/** Zooms by a factor (under 1: closer) about a place that stays where it is. */
export function zoomWindow(
  [fromM, toM]: ViewWindow,
  factor: number,
  aboutM: number,
  lengthM: number,
): ViewWindow {
  const widthM = (toM - fromM) * factor;
  const share = toM > fromM ? (aboutM - fromM) / (toM - fromM) : 0.5;
  const start = aboutM - widthM * share;
  return clampWindow([start, start + widthM], lengthM);
}

export const panWindow = ([fromM, toM]: ViewWindow, byM: number, lengthM: number): ViewWindow =>
  clampWindow([fromM + byM, toM + byM], lengthM);

/** Moves a window no further than needed to show a place. */
export function showInWindow([fromM, toM]: ViewWindow, atM: number, lengthM: number): ViewWindow {
  if (atM < fromM) return panWindow([fromM, toM], atM - fromM, lengthM);
  if (atM > toM) return panWindow([fromM, toM], atM - toM, lengthM);
  return [fromM, toM];
}
