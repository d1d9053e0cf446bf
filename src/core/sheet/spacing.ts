import type { Segment } from '../domain/segment';

/** Middle distance between places with a piece; two at one stance count as one place. null with fewer than two places. */
export function usualSpacingM({ pieces }: Segment): number | null {
  const gaps = pieces
    .slice(1)
    .map((piece, i) => piece.alongM - pieces[i]!.alongM)
    .filter((gapM) => gapM > 0.5)
    .sort((a, b) => a - b);
  return gaps[Math.floor(gaps.length / 2)] ?? null;
}
