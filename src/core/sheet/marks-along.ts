import type { Plan } from '../domain/segment';
import type { Scale } from './axis';

export interface MarksAlong {
  readonly pieces: readonly number[];
  readonly devices: readonly number[];
  readonly gatherings: readonly number[];
  readonly crossings: readonly number[];
}

/** Where the ticks stand, whole pixels. Seen from afar one tick stands for several: signs never cover each other. */
export function marksAlong(plan: Plan, x: Scale, leftPx: number, rightPx: number): MarksAlong {
  const seen = (alongs: readonly number[], apartPx: number) => {
    let lastPx = -Infinity;
    return alongs
      .map((m) => Math.round(x.toPx(m)))
      .filter((px) => px >= leftPx && px <= rightPx)
      .filter((px) => {
        const isApart = px - lastPx >= apartPx;
        if (isApart) lastPx = px;
        return isApart;
      });
  };
  const pieces = plan.segments.flatMap((s) => s.pieces);
  const crossings = seen(
    plan.segments.filter((s) => s.mode === 'belayed-crossing').map((s) => (s.fromM + s.toM) / 2),
    8,
  );
  const clearOf = (taken: readonly number[], apartPx: number) => (px: number) =>
    taken.every((other) => Math.abs(other - px) >= apartPx);
  const devices = seen(
    pieces.filter((p) => p.captureDevice).map((p) => p.alongM),
    10,
  ).filter(clearOf(crossings, 7));
  return {
    pieces: seen(
      pieces.map((p) => p.alongM),
      4,
    )
      .filter(clearOf(devices, 6))
      .filter(clearOf(crossings, 5)),
    devices,
    gatherings: seen(
      plan.segments.flatMap((s) => s.gatherings.map((g) => g.alongM)),
      11,
    ),
    crossings,
  };
}
