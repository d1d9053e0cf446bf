import type { Plan } from '../domain/segment';
import type { Scale } from './axis';

export interface MarksAlong {
  readonly pieces: readonly number[];
  readonly devices: readonly number[];
  readonly gatherings: readonly number[];
  readonly crossings: readonly number[];
}

/** Where the ticks stand, whole pixels, each pixel once: a tick may stand for several pieces when seen from afar. */
export function marksAlong(plan: Plan, x: Scale, leftPx: number, rightPx: number): MarksAlong {
  const seen = (alongs: readonly number[]) => {
    const pixels = alongs.map((m) => Math.round(x.toPx(m))).filter((px) => px >= leftPx && px <= rightPx);
    return [...new Set(pixels)];
  };
  const pieces = plan.segments.flatMap((s) => s.pieces);
  return {
    pieces: seen(pieces.map((p) => p.alongM)),
    devices: seen(pieces.filter((p) => p.captureDevice).map((p) => p.alongM)),
    gatherings: seen(plan.segments.flatMap((s) => s.gatherings.map((g) => g.alongM))),
    crossings: seen(
      plan.segments.filter((s) => s.mode === 'belayed-crossing').map((s) => (s.fromM + s.toM) / 2),
    ),
  };
}
