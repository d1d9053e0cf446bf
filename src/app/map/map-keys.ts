import type { Pen } from './pen.svelte';

/** What keys do on the map beside the map library's own. */
export interface KeyTargets {
  readonly pen: Pen;
  readonly pointCount: number;
  readonly hasCrossHair: boolean;
  moveCrossHair(dxPx: number, dyPx: number): void;
  toggleCrossHair(): void;
  pressCrossHair(): void;
  copyPlace(): void;
}

const arrows: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** @returns whether the key was ours. */
export function handleKey(event: KeyboardEvent, targets: KeyTargets): boolean {
  const { pen, pointCount } = targets;
  if (event.ctrlKey || event.metaKey || event.altKey) return false;
  if (event.key === 'Escape') {
    pen.finish();
    return true;
  }
  if ((event.target as HTMLElement).closest('button, input, select')) return false;
  const isPoints = pen.tool.kind === 'points';
  const arrow = arrows[event.key];
  if (arrow) {
    const px = event.shiftKey ? 1 : 10;
    if (isPoints && pen.pointIndex !== null) pen.nudge(arrow[0] * px, arrow[1] * px);
    else if (targets.hasCrossHair) targets.moveCrossHair(arrow[0] * px, arrow[1] * px);
    else return false;
    return true;
  }
  switch (event.key) {
    case 'x':
    case 'X':
      targets.toggleCrossHair();
      return true;
    case 'c':
    case 'C':
      targets.copyPlace();
      return true;
    case 'Enter':
      if (!targets.hasCrossHair) return false;
      targets.pressCrossHair();
      return true;
    case '[':
    case ']': {
      if (!isPoints) return false;
      const by = event.key === '[' ? -1 : 1;
      const from = pen.pointIndex ?? (by > 0 ? -1 : pointCount);
      pen.choose(Math.max(0, Math.min(pointCount - 1, from + by)));
      return true;
    }
    case 'Delete':
      if (!isPoints) return false;
      pen.deletePoint();
      return true;
    default:
      return false;
  }
}
